import type {Estimate} from '../numeric/estimate.ts';
import {noise} from './priors.ts';

/**
 * How much something scatters about what was expected, learned from misses:
 * a variance with as many observations behind it (inverse gamma, in its
 * conjugate form; what was assumed before counts as some observations).
 */
export interface Scatter {
	/** Observations, the assumed ones included, > 0; not whole where a miss had other causes too. */
	readonly count: number;
	/** Of the misses, cents squared. */
	readonly sumOfSquares: number;
}

/** How well this person stops a tuner, and how well this tuner tells. */
export interface Hands {
	readonly reading: Scatter;
	readonly stopping: Scatter;
	/** Standard deviation of the newest reading if it was heard and not read off the tuner, cents; the next one will be like it. */
	readonly heardCents?: number;
}

/** What was assumed counts as so many observations: a dozen misses weigh as much as the usual hand. Judgement. */
const assumedCount = 12;

const assumed = (sdCents: number): Scatter => ({count: assumedCount, sumOfSquares: assumedCount * sdCents ** 2});

export const usualHands: Hands = {reading: assumed(noise.readingCents), stopping: assumed(noise.handCents)};

/** How far a reading that was heard may be from the string's pitch, cents: its fit's own uncertainty, and what plucks differ. */
export function heardSdCents(fitSdCents: number): number {
	return Math.hypot(fitSdCents, noise.pluckCents);
}

/** Standard deviation of the next reading, cents: heard like the last, or read off the tuner. */
export function readingSdCents({heardCents, reading}: Hands): number {
	return heardCents ?? sdOf(reading).mean;
}

/** Standard deviation, cents, with its own spread. */
export function sdOf({count, sumOfSquares}: Scatter): Estimate {
	const mean = Math.sqrt(sumOfSquares / count);
	return {mean, sd: mean / Math.sqrt(2 * count)};
}

/**
 * After a miss whose variance is this scatter's and something else's besides.
 *
 * @param otherVariance Cents squared; where it is the larger part, nothing is learned.
 */
export function afterMiss(scatter: Scatter, missCents: number, otherVariance: number): Scatter {
	const variance = sdOf(scatter).mean ** 2;
	const share = variance / (variance + otherVariance);
	if (share < leastShare) return scatter;
	// A miss beyond four spreads is no scatter but an event, and counts as four. Judgement.
	const square = Math.min(missCents ** 2, 16 * (variance + otherVariance));
	return {count: scatter.count + share, sumOfSquares: scatter.sumOfSquares + share * share * square};
}

/** Below this share of a miss's variance the rest speaks louder than hand or tuner: nothing is learned. A little under half: judgement. */
const leastShare = 0.45;
