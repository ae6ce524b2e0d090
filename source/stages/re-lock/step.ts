import type {StringNumber} from '../../music/string-number.ts';
import type {Bench, StringRow, TuningAdvice} from '../../session/bench.ts';
import type {LockedString} from '../../session/locking.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatNumber} from '../../units/number.ts';
import {formatTail} from '../../units/length.ts';
import {type CheckItem, isMet} from '../common/checklist.ts';
import {takenString} from '../common/guided.ts';
import {plateToleranceMm} from '../../session/plate.ts';
import {listed, nameOf, rowOf} from '../common/rows.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {words} from './words.ts';

export const id = 're-lock';

export type Step =
	| {readonly kind: 'tune' | 'ready' | 'clamp' | 'done'}
	/** The fine tuner of the string that is next cannot bring it home. */
	| {readonly kind: 'unlock'; readonly out: LockedString}
	/** Clamping moved them all; each is read once before anything is corrected. */
	| {readonly kind: 'read'; readonly rows: readonly StringRow[]};

export function stepOf(bench: Bench): Step {
	// A string that the person takes once more is tuned before all else.
	const isTuned = planOf(bench).kind === 'done' && takenString(bench) === undefined;
	if (bench.nut === 'open') {
		if (!isTuned) return {kind: 'tune'};
		const isReady = readiness(bench).every(item => isMet(item, bench));
		return {kind: isReady ? 'clamp' : 'ready'};
	}
	const clamped = lastOf(bench.story, 'NutClamped');
	const unread = bench.strings.filter(({string}) => !isReadAfter(bench.story, string, 'open', clamped));
	if (unread.length > 0) return {kind: 'read', rows: unread};
	if (isTuned) return {kind: 'done'};
	const out = outOfReach(bench);
	return out ? {kind: 'unlock', out} : {kind: 'tune'};
}

/** The string to be turned next, if its fine tuner ends first; one that the person takes all the same is tried. */
function outOfReach(bench: Bench): LockedString | undefined {
	const plan = planOf(bench);
	if (plan.kind !== 'turn' || takenString(bench) !== undefined) return undefined;
	return bench.locking().strings.find(({string, isOutOfReach}) => string === plan.string && isOutOfReach);
}

/** With the nut open, each string is set off by what the clamps will do to it, once this instrument has shown that. */
export function planOf(bench: Bench): TuningAdvice {
	return (bench.nut === 'open' ? bench.locking().beforeClamp : undefined) ?? bench.tuning;
}

/** What must be so before the clamps go on, what the program sees of it itself, and why. */
export function readiness(bench: Bench): readonly CheckItem[] {
	const {ready} = words;
	return [
		{id: 're-lock: pitches', text: ready.pitches, ...pitchesSeen(bench)},
		stretchedItem(bench),
		{id: 're-lock: plate', text: ready.plate, ...plateSeen(bench)},
		{id: 're-lock: fine tuners', text: ready.fineTuners, ...fineTunersSeen(bench)},
		{id: 're-lock: saddle screws', text: ready.saddles},
		{id: 're-lock: strings flat on the nut', text: ready.flat},
	];
}

function pitchesSeen(bench: Bench): Pick<CheckItem, 'seen'> {
	const tuning = planOf(bench);
	if (tuning.kind !== 'done') return {};
	const {string, error} = tuning.worst;
	const isAimedOff = bench.nut === 'open' && bench.locking().beforeClamp !== undefined;
	const reason = words.ready[isAimedOff ? 'pitchesOffWhy' : 'pitchesWhy'](
		nameOf(rowOf(bench, string)),
		formatCentsSpread(error),
	);
	return {seen: {ok: true, reason}};
}

function stretchedItem({story, strings}: Bench): CheckItem {
	const {stretched, stretchedWhy, oldWhy, unstretched} = words.ready;
	const item = {id: 're-lock: strings stretched in', text: stretched};
	const fresh = strings.filter(({string}) => lastOf(story, 'StringFitted', string) >= 0);
	if (fresh.length === 0) return {...item, seen: {ok: true, reason: oldWhy}};
	const unpulled = fresh.filter(
		({string}) => lastOf(story, 'StringStretched', string) < lastOf(story, 'StringFitted', string),
	);
	// Pulled without saying so is the person's to tick.
	if (unpulled.length > 0) return {...item, text: unstretched(listed(unpulled.map(({string}) => string)))};
	const gave = fresh.flatMap(({string}) => lastGiveCents(story, string) ?? []);
	if (gave.length < fresh.length) return {...item, seen: {ok: true, reason: stretchedWhy}};
	const most = Math.max(...gave);
	if (most > settledCents) return {...item, text: words.ready.stillGives(formatNumber(most, 1))};
	return {...item, seen: {ok: true, reason: words.ready.settledWhy(formatNumber(Math.max(0, most), 1))}};
}

/** Up to this at the last pull a string counts as stretched in, cents. Judgement. */
const settledCents = 5;

/** How far the last pull let a string down: its readings before and after; undefined unless both are there. */
function lastGiveCents(story: Bench['story'], string: StringNumber): number | undefined {
	const pulled = lastOf(story, 'StringStretched', string);
	const cents = (from: number, to: number): readonly number[] =>
		story
			.slice(from, to)
			.flatMap(fact =>
				fact.type === 'PitchRead' && fact.string === string && fact.how === 'open' ? [fact.cents] : [],
			);
	const before = cents(0, pulled).at(-1);
	const after = cents(pulled, story.length)[0];
	return before === undefined || after === undefined ? undefined : before - after;
}

/** In the middle once they were set there, less what they were turned since. */
function fineTunersSeen(bench: Bench): Pick<CheckItem, 'seen'> {
	if (lastOf(bench.story, 'FineTunersCentred') < 0) return {};
	const turned = lastOf(bench.story, 'FineTunerTurned') > lastOf(bench.story, 'FineTunersCentred');
	return turned ? {} : {seen: {ok: true, reason: words.ready.centredWhy}};
}

function plateSeen({plate, sheet}: Bench): Pick<CheckItem, 'seen'> {
	const off = Math.abs(plate.tailMm.mean - sheet.plateWishMm);
	// Never measured, or believed to be off: then the eye decides.
	if (!plate.measured || off > 2 * plateToleranceMm) return {};
	const reason = words.ready.plateWhy(
		formatTail(plate.tailMm.mean, sheet.units),
		formatTail(sheet.plateWishMm, sheet.units),
	);
	return {seen: {ok: true, reason}};
}
