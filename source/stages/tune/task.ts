import {inEighths} from '../../planning/claw-limits.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatTrimmed} from '../../units/number.ts';
import {formatPercent} from '../../units/quantities.ts';
import {formatTurns, formatTurnsSpread} from '../../units/turns.ts';
import {clawByEarTask} from '../common/claw-by-ear.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {nameOf, rowOf, stringsNamed} from '../common/rows.ts';
import {choiceAfter, lastOf, plateSeenAt} from '../common/story.ts';
import {tuningWayOf} from '../common/tuning-way.ts';
import {stringCaution} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {
	clawLiftDue,
	clawLiftTask,
	clawTurnDue,
	isHeldAsWished,
	isSupportDue,
	isWayOpen,
	supportTask,
	unheardSinceOut,
	wayTask,
} from './support-way.ts';
import {words} from './words.ts';

export const id = 'tune';

/** Half a semitone: a string this close bears nearly its full pull. */
const nearPitchCents = 60;

export function isDone(bench: Bench): boolean {
	const {tuning, blocked, strings} = bench;
	if (foreseenTurns(bench) !== 0 || isSupportDue(bench)) return false;
	if (isNearEnough(bench)) return true;
	return (
		tuning.kind === 'done' &&
		!blocked &&
		!unheardSinceOut(bench) &&
		!clawTurnDue(bench) &&
		strings.every(({state}) => state !== 'off')
	);
}

/**
 * Every claw turn detunes everything, so while the plate has not been looked at
 * a pass to the last cent would be thrown away: near pitch is enough to judge
 * the claw by, and one pass after it brings pitch and level together.
 */
function isNearEnough(bench: Bench): boolean {
	const {tuning, blocked, strings, story, sheet} = bench;
	// Whoever tuned on a level support has the plate where it is wanted.
	if (tuningWayOf(bench) === 'support') return false;
	if (sheet.job === 'intonation' || blocked || tuning.kind !== 'turn' || plateSeenAt(story) >= 0) return false;
	return strings.every(({now}) => now && Math.abs(now.mean) < nearPitchCents && now.sd < nearPitchCents / 4);
}

/** On its support a string need only be this near, cents: the bridge moves them all when the support comes out. Judgement. */
const nearOnSupportCents = 10;

function isNearOnSupport(bench: Bench): boolean {
	const {blocked, strings} = bench;
	if (isHeldAsWished(bench)) return false;
	return (
		blocked &&
		strings.every(({now}) => now && Math.abs(now.mean) < nearOnSupportCents && now.sd < nearOnSupportCents / 2)
	);
}

export function task(bench: Bench): Task {
	const turns = foreseenTurns(bench);
	if (turns !== 0) return foreseenTask(bench, turns);
	const unpulled = readyToPull(bench);
	if (unpulled.length > 0) return pullTask(unpulled);
	if (isWayOpen(bench)) return wayTask(bench);
	if (isSupportDue(bench)) return supportTask(bench);
	if (isNearEnough(bench)) return passTask(id, words.nearEnough);
	const unheard = unheardSinceOut(bench);
	if (unheard) return readTask(bench, unheard, words.supportWay.listen, 0.6);
	const due = clawTurnDue(bench);
	if (due) return clawByEarTask(bench, due, words.supportWay.clawWhy, 0.7);
	const step = isNearOnSupport(bench) ? undefined : guidedTask(bench, tuningShare(bench) * (bench.blocked ? 0.5 : 1));
	if (step) return step;
	if (!bench.blocked) return doneTask(bench);
	const lift = clawLiftDue(bench);
	return lift ? clawLiftTask(bench, lift) : unsupportTask(bench);
}

/** So far at once; more is turned in balancing, with a look at the plate between. Judgement. */
const mostTurns = 2;
/** Less than this is left to balancing. Judgement. */
const leastTurns = 3 / 8;

/**
 * Turns of the claw that the change wants, made before the new strings are
 * tuned up: the claw detunes everything, so it goes first, and the plate does
 * not come to stand far off. 0 where nothing was foreseen or it is done.
 */
export function foreseenTurns({change, blocked, plate, story}: Bench): number {
	if (!change || blocked || change.springs.kind !== 'turns-will-do') return 0;
	const begun = Math.max(lastOf(story, 'NutOpened'), lastOf(story, 'StringFitted'));
	if (lastOf(story, 'ClawTurned') > begun || lastOf(story, 'PlateMeasured') > begun) return 0;
	if (isTrimmed(story)) return 0;
	if (choiceAfter(story, clawChoice, begun) === clawLater) return 0;
	const turns = inEighths(change.clawTurns.mean - plate.clawTurnsMade);
	if (Math.abs(turns) < leastTurns) return 0;
	return Math.max(-mostTurns, Math.min(mostTurns, turns));
}

/** The claw was turned by what a ruler showed with new strings on: that outweighs the forecast, even when one more string is fitted. */
function isTrimmed(story: Bench['story']): boolean {
	const fitted = story.findIndex(({type}) => type === 'StringFitted');
	const measured = story.findIndex(({type}, at) => type === 'PlateMeasured' && at > fitted);
	return fitted >= 0 && measured >= 0 && lastOf(story, 'ClawTurned') > measured;
}

export const clawChoice = 'foreseen claw turns';
export const clawLater = 'later';

function foreseenTask(bench: Bench, turns: number): Task {
	const {headline, why, how, prompt, example, enter: label} = words.foreseen;
	const deeds = [{type: 'ClawTurned', trebleTurns: turns, bassTurns: turns}] as const;
	const foreseen = formatTurnsSpread(bench.change!.clawTurns);
	return {
		headline: headline(formatTurns(turns)),
		why,
		how: how(foreseen),
		prompt,
		example,
		act: {kind: 'claw', turns},
		cautions: [stringCaution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0,
	};
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
	const turns = releaseTurns(bench);
	if (turns !== 0) return releaseTask(turns);
	return {
		headline,
		why,
		how,
		prompt: enter,
		act: {kind: 'unsupport'},
		cautions: [stringCaution],
		enter: {label: enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.5,
	};
}

/** The same where it is not yet done or put off: turns to make before the support comes out. */
export function releaseTurns(bench: Bench): number {
	const {story, plate} = bench;
	const placed = lastOf(story, 'SupportPlaced');
	const isPutOff = choiceAfter(story, clawChoice, placed) === clawLater;
	// What brings the plate back shows when it floats.
	if (isHeldAsWished(bench)) return 0;
	if (isPutOff || lastOf(story, 'ClawTurned') > placed || plate.springs.kind !== 'turns-will-do') return 0;
	return clawEighths(bench);
}

/** True where claw turns are asked for. */
export function isClawTask({enter}: Task): boolean {
	return enter !== undefined && enter.deeds !== 'practice' && enter.deeds.some(({type}) => type === 'ClawTurned');
}

function releaseTask(turns: number): Task {
	const {headline, why, how, prompt, example, enter: label} = words.release;
	const deeds = [{type: 'ClawTurned', trebleTurns: turns, bassTurns: turns}] as const;
	return {
		headline: headline(formatTurns(turns)),
		why,
		how,
		prompt,
		example,
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.45,
	};
}

/** Claw turns that make the bridge come out as wished the moment the support does, in the eighths that a hand can turn. */
export function clawEighths({plate}: Bench): number {
	return inEighths((plate.turnsBeforeRelease ?? plate.clawTurns).mean);
}

function doneTask(bench: Bench): Task {
	const {tuning} = bench;
	if (tuning.kind !== 'done') throw new RangeError(`doneTask: expected tuning to be done, got ${tuning.kind}`);
	const {worst, probability} = tuning;
	const {headline, headlineNear, why, again, beforeClamps} = words.done;
	const tolerance = formatTrimmed(bench.toleranceCents, 1);
	const said = why(
		nameOf(rowOf(bench, worst.string)),
		formatCentsSpread(worst.error),
		tolerance,
		formatPercent(probability),
	);
	const isHome = Math.abs(worst.error.mean) <= bench.toleranceCents;
	return passTask(id, {
		headline: isHome ? headline : headlineNear,
		why: said,
		how: [
			...(isHome ? [] : [again(String(worst.string))]),
			...(bench.toleranceCents > bench.sheet.openToleranceCents ? [beforeClamps] : []),
		],
	});
}
