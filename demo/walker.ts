import {benchOf} from '../source/session/bench-of.ts';
import type {Bench} from '../source/session/bench.ts';
import {decide} from '../source/session/decide.ts';
import {stateOf} from '../source/session/evolve.ts';
import type {Deed, Story} from '../source/session/facts.ts';
import {emptyJournal, type Journal, record, undo} from '../source/session/journal.ts';
import {performPractice} from '../source/session/practice-world.ts';
import type {InstrumentSheet} from '../source/session/sheet.ts';
import {stageOf} from '../source/shell/place.ts';
import {stages} from '../source/stages/index.ts';
import type {Stage, Task} from '../source/stages/stage.ts';

/** What stands before the person: all of it follows from the story. */
export interface Moment {
	readonly bench: Bench;
	readonly stage: Stage;
	readonly task: Task;
}

/** What a person may do other than what is asked. */
export type Whim = {readonly because?: string} & (
	| {
			/** Words on the entry line. */
			readonly kind: 'types';
			readonly text: string;
			/** Says "I meant it" where the wizard wonders. */
			readonly meant?: boolean;
	  }
	/** Takes the last entry back. */
	| {readonly kind: 'takes-back'}
	/** One of the keys that the stage offers. */
	| {readonly kind: 'presses'; readonly key: string}
);

export type Person = (moment: Moment) => Whim | undefined;

export interface Step extends Moment {
	readonly whim?: Whim;
	/** Stored by this step; empty when something was refused or taken back. */
	readonly deeds: readonly Deed[];
	/** What the wizard answered, when it did not simply store. */
	readonly said?: string;
	readonly journal: Journal;
}

/** More tasks than any set-up needs: a walk that is still going then goes round in circles. */
const most = 500;

/** A clock of the story's own: one entry every twenty seconds. */
const tickMs = 20_000;

/**
 * Plays a set-up on the practice guitar: at every task the simulated hands do
 * what the wizard asks, unless the person has a mind of their own. Ends after
 * the last stage. Same sheet and person, same steps.
 *
 * @throws {Error} If a task leaves the hands nothing to do, the session
 * refuses what a task offers, or there is no end.
 */
export function* walk(sheet: InstrumentSheet, person: Person = () => undefined): Generator<Step, Journal> {
	let journal = record(emptyJournal, [{type: 'SheetFilled', sheet}], 0);
	for (let count = 1; ; count++) {
		const moment = momentOf(journal.story);
		if (!moment) return journal;
		if (count > most) throw new Error(`no end after ${most} tasks; the last: ${moment.task.headline}`);
		const step = stepAt(moment, person(moment), journal, count * tickMs);
		journal = step.journal;
		yield step;
	}
}

/** Undefined when every stage is passed. */
function momentOf(story: Story): Moment | undefined {
	const bench = benchOf(story);
	const stage = stageOf(bench, stages);
	return stage && {bench, stage, task: stage.task(bench)};
}

function stepAt(moment: Moment, whim: Whim | undefined, journal: Journal, now: number): Step {
	const {bench, stage, task} = moment;
	if (whim?.kind === 'takes-back') return {...moment, whim, deeds: [], journal: undo(journal)};
	if (whim?.kind === 'types') {
		const answer = stage.answer(whim.text, task, bench);
		if (answer.kind === 'refused' || (answer.kind === 'question' && !whim.meant))
			return {...moment, whim, deeds: [], said: answer.said, journal};
		const asked = answer.kind === 'question' ? {said: answer.said} : {};
		const deeds = answer.kind === 'question' ? answer.deedsIfMeant : answer.deeds;
		return {...moment, whim, ...asked, ...stored(deeds, moment, journal, now)};
	}

	if (whim) return {...moment, whim, ...stored(deedsOfKey(moment, whim.key), moment, journal, now)};
	return {...moment, ...stored(asTold(moment), moment, journal, now)};
}

/** What the simulated hands make of the task. */
function asTold({bench, stage, task}: Moment): readonly Deed[] {
	if (task.practice) return performPractice(bench.story, task.practice);
	if (task.enter && task.enter.deeds !== 'practice') return task.enter.deeds;
	throw new Error(`${stage.id}, “${task.headline}”: nothing for the hands to do`);
}

function deedsOfKey({bench, stage, task}: Moment, key: string): readonly Deed[] {
	const action = stage.keys(bench, task).find(action => action.key === key);
	if (action?.does.kind !== 'deeds')
		throw new Error(`${stage.id}, “${task.headline}”: no key ${key} that stores anything`);
	return action.does.deeds;
}

function stored(deeds: readonly Deed[], {stage, task}: Moment, journal: Journal, now: number) {
	const decision = decide(deeds, stateOf(journal.story));
	if (!decision.ok) throw new Error(`${stage.id}, “${task.headline}”: ${decision.said}`);
	return {deeds, journal: record(journal, deeds, now)};
}
