import {mostLedTurns} from '../../planning/claw-return.ts';
import {planSupportWay} from '../../planning/tuning-ways.ts';
import type {Bench, ClawByEar, StringRow} from '../../session/bench.ts';
import {formatCents} from '../../units/cents.ts';
import {formatTurns} from '../../units/turns.ts';
import {formatNumber} from '../../units/number.ts';
import {formatTail} from '../../units/length.ts';
import {answerChoice, type Choice, choiceTask} from '../common/choices.ts';
import {clawByEarChoice, clawDeed, clawDueSince} from '../common/claw-by-ear.ts';
import {nameOf, rowOf} from '../common/rows.ts';
import {choiceAfter, isReadAfter, lastOf} from '../common/story.ts';
import {type TuningWay, tuningWayChoice, tuningWayOf} from '../common/tuning-way.ts';
import {stringCaution} from '../common/words.ts';
import type {Answer, KeyAction, Task} from '../stage.ts';
import {words as all} from './words.ts';

const {supportWay: words} = all;

/** Strings are this far off on the mean before a support is worth putting in, cents. Judgement; see `planSupportWay`. */
const farCents = 100;

/** Every string is settled, heard and far off, and no peg was turned yet. */
export function isWayOpen(bench: Bench): boolean {
	const {blocked, nut, story, strings, tuning} = bench;
	if (blocked || nut === 'locked' || tuningWayOf(bench) !== undefined || tuning.kind !== 'turn') return false;
	if (lastOf(story, 'PegTurned') > lastOf(story, 'NutOpened') || lastOf(story, 'StringFitted') >= 0) return false;
	const off = strings.map(({now}) => now && Math.abs(now.mean));
	return off.every(each => each !== undefined) && off.reduce((sum, each) => sum + each, 0) / off.length >= farCents;
}

function waysFor({strings}: Bench): readonly Choice<TuningWay>[] {
	const turns = planSupportWay(strings.length, 'far off');
	return (['support', 'floating'] as const).map(value => ({
		value,
		label: words.labels[value],
		note: words.cost(formatNumber(turns[value], 0)),
	}));
}

export function wayTask(bench: Bench): Task {
	return choiceTask(tuningWayChoice, waysFor(bench), 'support', {
		headline: words.headline,
		why: words.why,
		progress: 0.1,
	});
}

export function answerWay(text: string, bench: Bench): Answer {
	return answerChoice(text, tuningWayChoice, waysFor(bench));
}

/** The support was chosen and was not in since. */
export function isSupportDue(bench: Bench): boolean {
	return !bench.blocked && tuningWayOf(bench) === 'support' && lastOf(bench.story, 'SupportPlaced') < chosenAt(bench);
}

function chosenAt({story}: Bench): number {
	return story.findLastIndex(fact => fact.type === 'WayChosen' && fact.choice === tuningWayChoice);
}

/** Place in the story where the support made for the wished height came out, or -1: as long as no other was put in. */
function releasedAt(bench: Bench): number {
	const {story} = bench;
	const placed = lastOf(story, 'SupportPlaced');
	const fact = story[placed];
	if (tuningWayOf(bench) !== 'support' || placed < chosenAt(bench)) return -1;
	const out = lastOf(story, 'SupportRemoved');
	return fact?.type === 'SupportPlaced' && fact.tailMm !== undefined && out > placed ? out : -1;
}

/** On a support made for the wished height, strings are set as near as they are wanted. */
export function isHeldAsWished({story, blocked}: Bench): boolean {
	const placed = story.findLast(({type}) => type === 'SupportPlaced');
	return blocked && placed?.type === 'SupportPlaced' && placed.tailMm !== undefined;
}

export function supportTask({sheet}: Bench): Task {
	const wishMm = sheet.plateWishMm;
	const deeds = [{type: 'SupportPlaced', tailMm: wishMm}] as const;
	const {how, enter, headline, headlineLevel, why} = words.support;
	return {
		headline: wishMm === 0 ? headlineLevel : headline(formatTail(wishMm, sheet.units)),
		why,
		how,
		tableRests: true,
		prompt: enter,
		cautions: [stringCaution],
		enter: {label: enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

/** Let go, every string is heard before anything is turned: the first not heard since. */
export function unheardSinceOut(bench: Bench): StringRow | undefined {
	const out = releasedAt(bench);
	if (out < 0) return undefined;
	return bench.strings.find(({string, state}) => state !== 'off' && !isReadAfter(bench.story, string, 'open', out));
}

/** The turn of the claw by ear that is due, if it was not refused. */
export function clawTurnDue(bench: Bench): ClawByEar | undefined {
	const out = releasedAt(bench);
	if (out < 0) return undefined;
	const led = bench.story
		.slice(lastOf(bench.story, 'SupportPlaced'))
		.filter(fact => fact.type === 'ClawTurned' && fact.until).length;
	return led >= mostLedTurns ? undefined : clawDueSince(out, bench);
}

/** The turn of the claw that is due before the support made for the wished height comes out, if it was not refused. */
export function clawLiftDue(bench: Bench): ClawByEar | undefined {
	const {story, nut, plate} = bench;
	if (!isHeldAsWished(bench) || nut === 'locked' || plate.springs.kind !== 'turns-will-do') return undefined;
	return choiceAfter(story, clawByEarChoice, lastOf(story, 'SupportPlaced')) === undefined
		? bench.clawLift()
		: undefined;
}

export function clawLiftTask(bench: Bench, due: ClawByEar): Task {
	const row = rowOf(bench, due.string);
	const name = nameOf(row);
	const {lift} = words;
	const from = due.from ?? 'rising';
	const side = lift.sides[from];
	const label = lift.enter;
	const deeds = [clawDeed(due), {type: 'SupportRemoved'}] as const;
	return {
		headline: lift.headline(name, side),
		why: lift.why,
		how: [
			...lift.how(name, row.now ? formatCents(row.now.mean) : '', from, side),
			...(from === 'falling' ? [lift.thread] : []),
			...(due.turns === 0 ? [] : [lift.about(formatTurns(due.turns))]),
		],
		tableRests: true,
		prompt: label,
		cautions: [stringCaution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.6,
	};
}

/** True where the claw frees the bridge from its support. */
export function isClawLiftTask({enter}: Task): boolean {
	if (enter === undefined || enter.deeds === 'practice') return false;
	return enter.deeds.some(deed => deed.type === 'ClawTurned' && deed.until?.from !== undefined);
}

/** The support comes out with the claw left as it is. */
export const asItIsKey: KeyAction = {
	key: 'j',
	label: words.lift.asItIs,
	does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: clawByEarChoice, value: 'as it is'}]},
};
