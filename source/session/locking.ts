import type {Learned} from '../estimation/memory.ts';
import {heardSdCents} from '../estimation/hands.ts';
import {noise} from '../estimation/priors.ts';
import {type StringNumber, stringNumbers} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {
	aimBeforeClamp,
	centsPerMetre,
	clampPairOf,
	clampShift,
	expectedShift,
	type FineTunerReach,
	fineTunerReach,
	isOutOfReach,
	retainerSuspects,
} from '../planning/clamp-plan.ts';
import {centsOf} from '../planning/landing.ts';
import {linearisedCents} from '../estimation/reading-model.ts';
import {varianceAlong} from '../estimation/gaussian.ts';
import type {TuningAdvice} from './bench.ts';
import {beliefOf} from './belief-of.ts';
import {mayMovePitch} from './deed-nature.ts';
import type {Fact, Story} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';
import {happeningsOf} from './to-happenings.ts';

/** What locking the nut has done and will do. Cents positive = sharp. */
export interface Locking {
	readonly strings: readonly LockedString[];
	/** With the nut open: plan with the pegs that leaves each string off by what the clamps will do. Undefined where that is not known. */
	readonly beforeClamp?: TuningAdvice;
	/** Strings whose shift says that the retainer bar presses them out of line. */
	readonly retainerSuspects: readonly StringNumber[];
}

export interface LockedString {
	readonly string: StringNumber;
	/** What the next clamping is expected to do, from earlier ones of this instrument. */
	readonly expected?: Estimate;
	/** Where to set it before clamping. */
	readonly aimCents: number;
	/** What the last clamping did. */
	readonly found?: Estimate;
	/** Travel left on its fine tuner. Undefined when slack. */
	readonly reach?: FineTunerReach;
	/** What it is away from its target, cents; what the fine tuner has to do once locked. */
	readonly neededCents: number;
	/** Strings of its clamp block. */
	readonly pair: readonly StringNumber[];
	/** The fine tuner cannot bring it home: unlock the pair, centre the tuner, use the peg. */
	readonly isOutOfReach: boolean;
}

/** @param advise The tuning plan for a sheet with these strings' targets. */
export function lockingOf(
	story: Story,
	sheet: InstrumentSheet,
	learned: Learned | undefined,
	advise: (sheet: InstrumentSheet) => TuningAdvice,
): Locking {
	const belief = beliefOf(story, sheet, learned);
	const history = clampHistory(story, sheet, learned);
	const isOpen =
		!story.some(({type}) => type === 'NutClamped') || lastOf(story, 'NutOpened') > lastOf(story, 'NutClamped');
	const perMetre = centsPerMetre(belief);
	const now = centsOf(belief, belief.mean);
	const count = sheet.strings.length;
	const strings = sheet.strings.map((_, index): LockedString => {
		const own = history.flatMap(shifts => shifts[index] ?? []);
		const expected = expectedShift(own);
		const isFound = !isOpen && lastClampFound(story, index);
		const slope = perMetre[index];
		const reach = slope === undefined ? undefined : fineTunerReach(slope, movedByTuner(story, index));
		const needed = 0 - (now[index] ?? 0);
		return {
			string: stringNumbers[index]!,
			...(expected && {expected}),
			aimCents: aimBeforeClamp(expected),
			...(isFound && own.length > 0 && {found: own.at(-1)!}),
			...(reach && {reach}),
			neededCents: needed,
			pair: clampPairOf(index, count).map(at => stringNumbers[at]!),
			isOutOfReach: !isOpen && reach !== undefined && isOutOfReach(reach, needed),
		};
	});
	return {
		strings,
		...(isOpen && strings.some(({aimCents}) => aimCents !== 0) && {beforeClamp: aimedOff(advise, sheet, strings)}),
		retainerSuspects: retainerSuspects(strings.map(({found}) => found)).map(index => stringNumbers[index]!),
	};
}

/** Shifts by string, one entry a clamping: what was learned before, then every clamping of this story after which the string was read. */
function clampHistory(
	story: Story,
	sheet: InstrumentSheet,
	learned: Learned | undefined,
): readonly (readonly (Estimate | undefined)[])[] {
	const earlier = learned?.clamp?.length === sheet.strings.length ? [learned.clamp.map(each => each ?? undefined)] : [];
	const clampings = story.flatMap(({type}, at) => (type === 'NutClamped' ? [at] : []));
	return [...earlier, ...clampings.map(at => shiftsAt(story, sheet, learned, at))];
}

/** What this instrument's clamps do, for its next set-up; undefined when nothing was clamped and read yet. */
export function clampLesson(
	story: Story,
	sheet: InstrumentSheet,
	learned: Learned | undefined,
): readonly (Estimate | null)[] | undefined {
	const history = clampHistory(story, sheet, learned);
	if (history.length === 0) return undefined;
	return sheet.strings.map((_, index) => expectedShift(history.flatMap(shifts => shifts[index] ?? [])) ?? null);
}

function shiftsAt(
	story: Story,
	sheet: InstrumentSheet,
	learned: Learned | undefined,
	at: number,
): readonly (Estimate | undefined)[] {
	const before = beliefOf(story.slice(0, at), sheet, learned);
	const after = readsAfter(story, sheet, at);
	return sheet.strings.map((_, index) => {
		const {everRead, turnedUnread, on} = before.strings[index]!;
		const place = on === 'sounding' && everRead && !turnedUnread && linearisedCents(before, before.mean, index);
		const read = after.get(index);
		if (!place || read === undefined) return undefined;
		const sd = Math.sqrt(varianceAlong(before.covariance, place.gradient));
		return sd > 3 ? undefined : clampShift({mean: place.value, sd}, read);
	});
}

/** First open readings after the clamps, before anything else was touched. */
function readsAfter(story: Story, sheet: InstrumentSheet, at: number): ReadonlyMap<number, Estimate> {
	const reads = new Map<number, Estimate>();
	for (const fact of story.slice(at + 1)) {
		// From there on a reading does not show the clamps alone.
		if (mayMovePitch(fact)) break;
		for (const happening of happeningsOf(fact, sheet, sheet)) {
			if (happening.kind !== 'pitch' || reads.has(happening.index)) continue;
			const {index, cents: mean, heardSdCents: fitSdCents} = happening;
			reads.set(index, {mean, sd: fitSdCents === undefined ? noise.readingCents : heardSdCents(fitSdCents)});
		}
	}

	return reads;
}

function lastClampFound(story: Story, index: number): boolean {
	const at = lastOf(story, 'NutClamped');
	return story.slice(at).some(fact => fact.type === 'PitchRead' && fact.string === index + 1 && fact.how === 'open');
}

/** Cents that a string's own fine tuner has moved it by since it was set to the middle: readings before and after each turn. */
function movedByTuner(story: Story, index: number): number {
	const from = lastOf(story, 'FineTunersCentred');
	let moved = 0;
	let before: number | undefined;
	let isTurned = false;
	for (const fact of story.slice(from + 1)) {
		if (fact.type === 'FineTunerTurned' && fact.string === index + 1) isTurned = true;
		if (fact.type !== 'PitchRead' || fact.string !== index + 1 || fact.how !== 'open') continue;
		if (isTurned && before !== undefined) moved += fact.cents - before;
		isTurned = false;
		before = fact.cents;
	}

	return moved;
}

/** The plan for targets shifted by what the clamps will do, said in cents of the true targets again. */
function aimedOff(
	advise: (sheet: InstrumentSheet) => TuningAdvice,
	sheet: InstrumentSheet,
	strings: readonly LockedString[],
): TuningAdvice {
	const advice = advise(sheetAimedOff(sheet, strings));
	const offOf = (string: StringNumber): number => strings[string - 1]!.aimCents;
	if (advice.kind !== 'turn') return advice;
	const {aimCents} = advice;
	return {...advice, aimCents: {mean: aimCents.mean + offOf(advice.string), sd: aimCents.sd}};
}

/** The same object for the same shifts, so that what was worked out for it is found again. */
function sheetAimedOff(sheet: InstrumentSheet, strings: readonly LockedString[]): InstrumentSheet {
	const offs = strings.map(({aimCents}) => Math.round(aimCents * 10) / 10);
	const known = aimedSheets.get(sheet) ?? new Map<string, InstrumentSheet>();
	aimedSheets.set(sheet, known);
	const name = offs.join(' ');
	const aimed = known.get(name) ?? {
		...sheet,
		strings: sheet.strings.map((row, index) => ({...row, offsetCents: (row.offsetCents ?? 0) + offs[index]!})),
	};
	known.set(name, aimed);
	return aimed;
}

const aimedSheets = new WeakMap<InstrumentSheet, Map<string, InstrumentSheet>>();

function lastOf(story: Story, type: Fact['type']): number {
	return story.findLastIndex(fact => fact.type === type);
}
