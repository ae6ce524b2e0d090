import type {Bench, StringRow} from '../../session/bench.ts';
import type {LockedString} from '../../session/locking.ts';
import {formatCents, formatCentsSpread} from '../../units/cents.ts';
import {formatNumber} from '../../units/number.ts';
import {checklistTask} from '../common/checklist.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {listed, nameOf, rowOf} from '../common/rows.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {id, planOf, readiness, stepOf} from './step.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const isLocked = bench.nut === 'locked';
	switch (step.kind) {
		case 'tune': {
			const progress = isLocked ? 0.6 + 0.3 * tuningShare(bench) : 0.1;
			const guided =
				guidedTask({...bench, tuning: planOf(bench)}, progress) ??
				readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
			return {...guided, how: [...aboutLocking(bench, guided), ...(guided.how ?? [])]};
		}
		case 'ready': {
			const {headline, why} = words.ready;
			return checklistTask(readiness(bench), bench, {headline, why, progress: 0.2});
		}
		case 'clamp':
			return clampTask();
		case 'read':
			return readAllTask(step.rows, bench);
		case 'unlock':
			return unlockTask(step.out, bench);
		case 'done':
			return doneTask(bench);
	}
}

/** What the clamps did, and what the fine tuner of the string asked for can still do. */
function aboutLocking(bench: Bench, {string}: Task): readonly string[] {
	const {strings, retainerSuspects} = bench.locking();
	const row = strings.find(each => each.string === string);
	if (bench.nut === 'open') {
		return row?.expected && row.aimCents !== 0
			? [words.offBefore(String(row.string), formatCents(row.expected.mean))]
			: [];
	}
	const found = strings.flatMap(each => (each.found ? [formatCents(each.found.mean)] : []));
	return [
		...(row ? reachWords(row) : []),
		...(retainerSuspects.length > 0 ? [words.retainer(listed(retainerSuspects))] : []),
		...(found.length === strings.length && found.length > 0 ? [words.shifts(found.join(', '))] : []),
	];
}

function reachWords({string, pair, reach, isOutOfReach, neededCents}: LockedString): readonly string[] {
	if (!reach) return [];
	const [flat, sharp] = [reach.flat, reach.sharp].map(({mean}) => formatNumber(mean, 0));
	if (isOutOfReach) return [words.nearEnd(listed(pair), neededCents < 0 ? flat! : sharp!)];
	return [words.left(String(string), flat!, sharp!)];
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

/** Clamps off, tuners to the middle: from there pegs and clamps are led through once more. */
function unlockTask({string, pair, reach, neededCents}: LockedString, bench: Bench): Task {
	const {headline, why, how, enter: label} = words.unlock;
	const left = reach?.[neededCents < 0 ? 'flat' : 'sharp'].mean ?? 0;
	const deeds = [{type: 'NutOpened'}, {type: 'FineTunersCentred'}] as const;
	return {
		headline: headline(nameOf(rowOf(bench, string)), listed(pair)),
		why: why(formatCents(neededCents), formatNumber(Math.max(0, left), 0)),
		how,
		prompt: label,
		string,
		cautions: [words.caution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.6,
	};
}

function readAllTask(rows: readonly StringRow[], bench: Bench): Task {
	const row = rows[0]!;
	const count = bench.strings.length;
	const task = readTask(bench, row, words.readAll.why, 0.4 + (0.2 * (count - rows.length)) / count);
	return {...task, how: [words.readAll.all(count), ...(task.how ?? [])]};
}

function doneTask(bench: Bench): Task {
	const {tuning} = bench;
	const {headline, headlineNear, why, again} = words.done;
	if (tuning.kind !== 'done') return passTask(id, {headline: headlineNear, why: ''});
	const {string, error} = tuning.worst;
	const isHome = Math.abs(error.mean) <= bench.toleranceCents;
	return passTask(id, {
		headline: isHome ? headline : headlineNear,
		why: why(nameOf(rowOf(bench, string)), formatCentsSpread(error)),
		...(!isHome && {how: [again(String(string))]}),
	});
}
