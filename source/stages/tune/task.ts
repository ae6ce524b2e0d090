import {inEighths} from '../../planning/claw-limits.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatPercent} from '../../units/quantities.ts';
import {formatTurns} from '../../units/turns.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, tuningShare} from '../common/guided.ts';
import {nameOf, rowOf, stringsNamed} from '../common/rows.ts';
import {lastOf} from '../common/story.ts';
import {stringCaution} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {words} from './words.ts';

export const id = 'tune';

/** Half a semitone: a string this close bears nearly its full pull. */
const nearPitchCents = 60;

export function isDone(bench: Bench): boolean {
	const {tuning, blocked, strings} = bench;
	if (isNearEnough(bench)) return true;
	return tuning.kind === 'done' && !blocked && strings.every(({state}) => state !== 'off');
}

/**
 * Every claw turn detunes everything, so while the plate has not been looked at
 * a pass to the last cent would be thrown away: near pitch is enough to judge
 * the claw by, and one pass after it brings pitch and level together.
 */
function isNearEnough({tuning, blocked, strings, story, sheet}: Bench): boolean {
	if (sheet.job === 'intonation' || blocked || tuning.kind !== 'turn' || lastOf(story, 'PlateMeasured') >= 0)
		return false;
	return strings.every(({now}) => now && Math.abs(now.mean) < nearPitchCents && now.sd < nearPitchCents / 4);
}

export function task(bench: Bench): Task {
	const unpulled = readyToPull(bench);
	if (unpulled.length > 0) return pullTask(unpulled);
	if (isNearEnough(bench)) return passTask(id, words.nearEnough);
	const step = guidedTask(bench, tuningShare(bench) * (bench.blocked ? 0.5 : 1));
	if (step) return step;
	return bench.blocked ? unsupportTask(bench) : doneTask(bench);
}

/** New strings are pulled once all of them are near pitch: before that it does little, later it costs a pass. */
function readyToPull({story, strings}: Bench): readonly StringRow[] {
	const fresh = strings.filter(
		({string}) => lastOf(story, 'StringFitted', string) > lastOf(story, 'StringStretched', string),
	);
	return strings.every(({now}) => now && now.mean > -nearPitchCents) ? fresh : [];
}

function pullTask(rows: readonly StringRow[]): Task {
	const {headline, why, how, enter: label} = words.pull;
	const strings = rows.map(({string}) => string);
	const deeds = strings.map(string => ({type: 'StringStretched', string}) as const);
	return {
		headline: headline(stringsNamed(strings)),
		why,
		how,
		prompt: label,
		cautions: [stringCaution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.5,
	};
}

function unsupportTask(bench: Bench): Task {
	const {headline, why, how, enter} = words.unsupport;
	const deeds = [{type: 'SupportRemoved'}] as const;
	return {
		headline,
		why,
		how: [...(clawEighths(bench) === 0 ? [] : [words.unsupport.claw(formatTurns(clawEighths(bench)))]), ...how],
		prompt: enter,
		act: {kind: 'unsupport'},
		cautions: [stringCaution],
		enter: {label: enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.5,
	};
}

/** Claw turns that make the bridge come out as wished the moment the support does, in the eighths that a hand can turn. */
export function clawEighths({plate}: Bench): number {
	return inEighths((plate.turnsBeforeRelease ?? plate.clawTurns).mean);
}

function doneTask(bench: Bench): Task {
	const {tuning, sheet} = bench;
	if (tuning.kind !== 'done') throw new RangeError(`doneTask: expected tuning to be done, got ${tuning.kind}`);
	const {worst, probability} = tuning;
	const {headline, headlineNear, why, again} = words.done;
	const said = why(nameOf(rowOf(bench, worst.string)), formatCentsSpread(worst.error), formatPercent(probability));
	const isHome = Math.abs(worst.error.mean) <= sheet.openToleranceCents;
	return passTask(id, {
		headline: isHome ? headline : headlineNear,
		why: said,
		...(!isHome && {how: [again(String(worst.string))]}),
	});
}
