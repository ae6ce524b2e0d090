import {benchOf} from '../../source/session/bench-of.ts';
import type {Bench} from '../../source/session/bench.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed, Story} from '../../source/session/facts.ts';
import {emptyJournal, type Journal, record} from '../../source/session/journal.ts';
import {performPractice} from '../../source/session/practice-world.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {stages} from '../../source/stages/index.ts';
import type {Stage, Task} from '../../source/stages/stage.ts';

export interface WalkStep {
	readonly stage: Stage;
	readonly task: Task;
	readonly bench: Bench;
	readonly deeds: readonly Deed[];
}

/**
 * A whole set-up on the practice guitar: at every task the simulated hands do
 * what is asked, unless `typed` has something to say there.
 *
 * @throws {Error} If the bench refuses something, or it does not end within `most` tasks.
 */
export function walkStages(
	sheet: InstrumentSheet,
	{
		typed = () => undefined,
		most = 400,
	}: {readonly typed?: (stage: Stage, task: Task) => string | undefined; readonly most?: number} = {},
): {readonly steps: readonly WalkStep[]; readonly story: Story} {
	let journal: Journal = record(emptyJournal, [{type: 'SheetFilled', sheet}], 0);
	const steps: WalkStep[] = [];
	while (steps.length < most) {
		const bench = benchOf(journal.story);
		const stage: Stage | undefined = stages.find(
			stage => stage.isNeeded(bench) && !bench.passedStages.includes(stage.id),
		);
		if (!stage) return {steps, story: journal.story};
		const task = stage.task(bench);
		const deeds = deedsAt(stage, task, bench, typed(stage, task));
		const decision = decide(deeds, stateOf(journal.story));
		if (!decision.ok) throw new Error(`${stage.id}, “${task.headline}”: ${decision.said}`);
		journal = record(journal, deeds, 1000 * steps.length);
		steps.push({stage, task, bench, deeds});
	}
	throw new Error(
		`no end after ${most} tasks; the last: ${steps
			.slice(-8)
			.map(({task}) => task.headline)
			.join(' / ')}`,
	);
}

function deedsAt(stage: Stage, task: Task, bench: Bench, text: string | undefined): readonly Deed[] {
	if (text === undefined) {
		if (!task.practice) throw new Error(`${stage.id}, “${task.headline}”: nothing for the hands to do`);
		return performPractice(bench.story, task.practice);
	}
	const answer = stage.answer(text, task, bench);
	if (answer.kind !== 'deeds') throw new Error(`${stage.id}, “${text}”: ${answer.said}`);
	return answer.deeds;
}
