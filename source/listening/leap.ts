import {centsBetween} from '../music/pitch.ts';
import type {HeardTone} from './estimate-tone.ts';
import type {Ring} from './listening.ts';
import {type PartialLaw, partialHz} from './partial-law.ts';
import {amplitudeNear, spectrumOf} from './spectrum.ts';

/** A ring that was last heard elsewhere, farther than a peg goes between two looks. */
export interface Leap {
	readonly hz: number;
	readonly sdCents: number;
	/** Looks in a row that heard it thereabouts, moving or still. */
	readonly looks: number;
	/** Looks in a row at which it stood still. */
	readonly steadyLooks: number;
	/** Another string, or an overtone: not followed, as long as it is heard thereabouts. */
	readonly isOther: boolean;
}

/** So many looks in a row, somewhere between where it was and nowhere, and it is the same string, turned fast. */
export const leapLooks = 3;
/** Nobody turns a string this far while one pluck of it rings: judgement; farther away it is another, cents. */
const farthestCents = 800;
/** Nearer than this to an interval between partials it may be an overtone taken for the tone, or the reverse, cents. */
const overtoneCents = 30;
/** Fifth and fourth: partials 3 over 2, 4 over 3. */
const overtoneIntervalsCents = [1200 * Math.log2(3 / 2), 1200 * Math.log2(4 / 3)] as const;
/** Nearer than this to where another string is believed it is that string, cents. */
const believedCents = 20;
/** What is left of a string that has gone elsewhere, over what sounds now, is less than this (−14 dB). */
const goneShare = 0.2;
/** Strings lose no more than this share of their sound over the looks of a leap; ringing along, another is fainter. */
const ownShare = 0.25;
/** Partials compared: the strong ones. */
const highest = 8;

/**
 * What is known of a leap after one more look: heard thereabouts again, or somewhere else.
 *
 * @param nearCents Farther than this from the last look it is another leap.
 * @param isStill Whether a step from a look that unsure is none.
 * @param isOther Whether this tone cannot be the string that was followed; asked once it has held.
 */
export function leapAfter(
	leap: Leap | undefined,
	live: HeardTone,
	{
		nearCents,
		isStill,
		isOther,
	}: {
		readonly nearCents: number;
		readonly isStill: (cents: number, sdCents: number) => boolean;
		readonly isOther: () => boolean;
	},
): Leap {
	const step = leap ? Math.abs(centsBetween(live.hz, leap.hz)) : Number.POSITIVE_INFINITY;
	const isSame = leap !== undefined && step <= nearCents;
	const looks = isSame ? leap.looks + 1 : 1;
	const steadyLooks = isSame && isStill(step, leap.sdCents) ? leap.steadyLooks + 1 : 0;
	return {
		hz: live.hz,
		sdCents: live.sdCents,
		looks,
		steadyLooks,
		// The first looks still hold some sound of the place that was left.
		isOther: isSame && (leap.isOther || (looks >= leapLooks && isOther())),
	};
}

/**
 * Whether a leap must be another string's or an overtone: by its interval, by
 * its faintness, by what is believed to sound there, or because the string is
 * still heard where it was. A string that was turned has left its place.
 *
 * @param ring As it was followed last.
 * @param sound The stretch that was looked at.
 */
export function isOtherTone(
	{law, hz, level}: HeardTone,
	{tone: was, toldHz}: Pick<Ring, 'tone' | 'toldHz'>,
	{samples, sampleRateHz}: {readonly samples: Float32Array; readonly sampleRateHz: number},
	believedHz: readonly number[],
): boolean {
	if (!was || level < ownShare * was.level) return true;
	const wasHz = partialHz(was.law, 1);
	const interval = Math.abs(centsBetween(hz, wasHz));
	if (interval > farthestCents) return true;
	if (overtoneIntervalsCents.some(each => Math.abs(interval - each) < overtoneCents)) return true;
	// Its own place in what is believed is the one it was told near.
	const fromTold = (each: number) => Math.abs(centsBetween(each, toldHz ?? wasHz));
	const [own] = [...believedHz].sort((one, other) => fromTold(one) - fromTold(other));
	if (believedHz.some(each => each !== own && Math.abs(centsBetween(each, hz)) < believedCents)) return true;
	return isStillHeard(was.law, law, samples, sampleRateHz);
}

/** Whether partials of the old law that lie clear of the new one's still sound beside those. */
function isStillHeard(was: PartialLaw, is: PartialLaw, samples: Float32Array, sampleRateHz: number): boolean {
	const spectrum = spectrumOf(samples, sampleRateHz);
	const reachHz = spectrum.lineHalfWidthHz / 2;
	const clearHz = 2 * spectrum.lineHalfWidthHz;
	const numbers = Array.from({length: highest}, (_, at) => at + 1);
	const powerOf = (law: PartialLaw, other: PartialLaw) =>
		numbers.reduce((sum, n) => {
			const hz = partialHz(law, n);
			const nearest = Math.max(1, Math.round(hz / partialHz(other, 1)));
			const isClear = [nearest - 1, nearest, nearest + 1].every(
				m => m < 1 || Math.abs(partialHz(other, m) - hz) > clearHz,
			);
			return isClear ? sum + amplitudeNear(spectrum, hz, reachHz) ** 2 : sum;
		}, 0);
	const there = powerOf(is, was);
	// Where the two cannot be told apart nothing says that it has left.
	return there === 0 || powerOf(was, is) > goneShare ** 2 * there;
}
