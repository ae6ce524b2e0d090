import type {Bench, StringRow} from '../../session/bench.ts';
import {leftoverAfter, type Motion} from '../../session/report/arm-proof.ts';
import {leftoverWords} from '../../session/report/sections.ts';
import {checklistTask} from '../common/checklist.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask} from '../common/guided.ts';
import {nameOf} from '../common/rows.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {id, lookItems, motions, movedAt, type Step, stepOf} from './step.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const progress = progressOf(bench, step);
	switch (step.kind) {
		case 'look': {
			const {headline, why} = words.look;
			return checklistTask(lookItems, bench, {headline, why, progress});
		}
		case 'open':
			return openTask(step.rows, bench, words.open.why, progress);
		case 'after-motion':
			return openTask(step.rows, bench, words.afterMotion, progress);
		case 'fretted':
			return frettedTask(step.rows[0]!, bench, progress);
		case 'plate':
			return {...words.plate, tableRests: true, practice: {kind: 'measure-plate'}, progress};
		case 'motion':
			return motionTask(step.motion, bench, progress);
		case 'tune':
			return guidedTask(bench, progress) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
		case 'done':
			return doneTask(bench);
	}
}

function openTask(rows: readonly StringRow[], bench: Bench, why: string, progress: number): Task {
	const task = readTask(bench, rows[0]!, why, progress);
	return {...task, how: [words.open.all(bench.strings.length), ...(task.how ?? [])]};
}

function frettedTask(row: StringRow, bench: Bench, progress: number): Task {
	const {headline, why, how, prompt, example} = words.fretted;
	return {
		headline: headline(nameOf(row)),
		why,
		how: [...how, words.open.all(bench.strings.length)],
		prompt: prompt(nameOf(row)),
		example,
		string: row.string,
		practice: {kind: 'pluck', string: row.string, how: 'fretted', fret: 12},
		progress,
	};
}

function motionTask(motion: Motion, bench: Bench, progress: number): Task {
	const deeds = [{type: 'ArmMoved', motion}] as const;
	return {
		...words.motions[motion],
		how: [...saidSoFar(bench), ...words.motionHow],
		prompt: words.moved,
		cautions: words.cautions,
		enter: {label: words.moved, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}

function doneTask(bench: Bench): Task {
	const said = saidSoFar(bench);
	const {headline, whyNone} = words.done;
	return passTask(id, {headline, why: said[0] ?? whyNone, how: said.slice(1)});
}

/** What each movement left behind, the latest first. */
function saidSoFar(bench: Bench): readonly string[] {
	return motions
		.flatMap(motion => {
			const at = movedAt(motion, bench);
			const leftover = at < 0 ? undefined : leftoverAfter(bench, at);
			return leftover ? [words.says(words.motionNames[motion], leftoverWords(leftover))] : [];
		})
		.toReversed();
}

function progressOf(bench: Bench, step: Step): number {
	const moved = motions.filter(motion => movedAt(motion, bench) >= 0).length;
	const base = {look: 0, open: 0.1, fretted: 0.2, plate: 0.35, motion: 0.4, 'after-motion': 0.3, tune: 0.9, done: 1}[
		step.kind
	];
	return step.kind === 'motion' || step.kind === 'after-motion' ? base + (0.5 * moved) / motions.length : base;
}
