import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {checklistTask} from '../common/checklist.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {nameOf, rowOf} from '../common/rows.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {id, readiness, stepOf} from './step.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const isLocked = bench.nut === 'locked';
	switch (step.kind) {
		case 'tune': {
			const progress = isLocked ? 0.6 + 0.3 * tuningShare(bench) : 0.1;
			return guidedTask(bench, progress) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
		}
		case 'ready': {
			const {headline, why} = words.ready;
			return checklistTask(readiness(bench), bench, {headline, why, progress: 0.2});
		}
		case 'clamp':
			return clampTask();
		case 'read':
			return readAllTask(step.rows, bench);
		case 'done':
			return doneTask(bench);
	}
}

function clampTask(): Task {
	const {headline, why, how, enter: label} = words.clamp;
	const deeds = [{type: 'NutClamped'}] as const;
	return {
		headline,
		why,
		how,
		prompt: label,
		act: {kind: 'clamp'},
		cautions: [words.caution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.4,
	};
}

function readAllTask(rows: readonly StringRow[], bench: Bench): Task {
	const row = rows[0]!;
	const count = bench.strings.length;
	const task = readTask(bench, row, words.readAll.why, 0.4 + (0.2 * (count - rows.length)) / count);
	return {...task, how: [words.readAll.all(count), ...(task.how ?? [])]};
}

function doneTask(bench: Bench): Task {
	const {tuning, sheet} = bench;
	const {headline, headlineNear, why, again} = words.done;
	if (tuning.kind !== 'done') return passTask(id, {headline: headlineNear, why: ''});
	const {string, error} = tuning.worst;
	const isHome = Math.abs(error.mean) <= sheet.openToleranceCents;
	return passTask(id, {
		headline: isHome ? headline : headlineNear,
		why: why(nameOf(rowOf(bench, string)), formatCentsSpread(error)),
		...(!isHome && {how: [again(String(string))]}),
	});
}
