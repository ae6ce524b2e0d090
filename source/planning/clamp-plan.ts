import {type Belief, wireFor} from '../estimation/belief.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {centsOf} from './landing.ts';

/** How alike one clamping of a nut is to the next, cents. Judgement: same blocks, same bar, same string in the same slot. */
const repeatCents = 0.8;

/** What clamping did to one string: its reading after, less what was believed before; the bridge's share is in it. */
export function clampShift(before: Estimate, after: Estimate): Estimate {
	return {mean: after.mean - before.mean, sd: Math.hypot(before.sd, after.sd)};
}

/**
 * What the next clamping of this string will do, from earlier ones, oldest
 * first: each says what its own spread and the unlikeness of two clampings
 * allow. Undefined without a history.
 */
export function expectedShift(history: readonly Estimate[]): Estimate | undefined {
	return history.reduce((known: Estimate | undefined, {mean, sd}): Estimate => {
		const variance = sd ** 2 + repeatCents ** 2;
		if (!known) return {mean, sd: Math.sqrt(variance)};
		const gain = known.sd ** 2 / (known.sd ** 2 + variance);
		return {mean: known.mean + gain * (mean - known.mean), sd: Math.hypot(Math.sqrt(1 - gain) * known.sd, 0.3)};
	}, undefined);
}

/** Where a string is set before clamping so that the clamp brings it home, cents; 0 while the shift is hardly known. */
export function aimBeforeClamp(shift: Estimate | undefined): number {
	// Written as a difference to keep a negative zero away.
	return shift && shift.sd < 2.5 ? 0 - shift.mean : 0;
}

/**
 * A bar that presses the strings out of line shows in what the clamps do:
 * most go sharp, and by more than the few cents that are usual.
 *
 * @returns Indices of the strings that went furthest; none when nothing points to the bar.
 */
export function retainerSuspects(shifts: readonly (Estimate | undefined)[]): readonly number[] {
	const known = shifts.flatMap((shift, index) => (shift ? [{index, cents: shift.mean}] : []));
	const sorted = known.map(({cents}) => cents).sort((a, b) => a - b);
	const middle = sorted[Math.floor(sorted.length / 2)] ?? 0;
	if (middle < suspectMedianCents) return [];
	return known.filter(({cents}) => cents >= suspectMedianCents).map(({index}) => index);
}

/** A few cents sharp are usual (common practice, no source); half the strings beyond this are not. */
const suspectMedianCents = 6;

/** Half the travel of a fine tuner, as path added to the string, metres. Judgement: a millimetre or less in all. */
export const halfTravelM: Estimate = {mean: 0.3e-3, sd: 0.07e-3};

/** Cents that one metre of path added at the saddle gives each string, the bridge yielding as it does. Undefined when slack. */
export function centsPerMetre(belief: Belief): readonly (number | undefined)[] {
	return belief.strings.map(({on}, index) => {
		if (on !== 'sounding') return undefined;
		const at = belief.layout.pull(index);
		const stepped = (by: number): number | undefined => {
			const x = Float64Array.from(belief.mean);
			x[at]! += by;
			return centsOf(belief, x)[index];
		};
		const [high, low] = [stepped(0.002), stepped(-0.002)];
		if (high === undefined || low === undefined) return undefined;
		const {speakingLengthM, targetStrain} = wireFor(belief, belief.mean, index);
		return (high - low) / 0.004 / (speakingLengthM * targetStrain);
	});
}

/** What a fine tuner can still do, cents of its own string, both 0 or more. */
export interface FineTunerReach {
	readonly flat: Estimate;
	readonly sharp: Estimate;
}

/**
 * Travel left when the fine tuner was set to the middle and has since moved
 * its string by so many cents in all, positive = sharper.
 */
export function fineTunerReach(perMetre: number, movedCents: number): FineTunerReach {
	const half = {mean: halfTravelM.mean * perMetre, sd: halfTravelM.sd * perMetre};
	const left = (cents: number): Estimate => ({mean: Math.max(0, cents), sd: half.sd});
	return {flat: left(half.mean + movedCents), sharp: left(half.mean - movedCents)};
}

/** Whether a correction will be within reach: beyond it in nine cases of ten, the clamp of its pair has to come off. */
export function isOutOfReach({flat, sharp}: FineTunerReach, neededCents: number): boolean {
	const {mean, sd} = neededCents < 0 ? flat : sharp;
	return Math.abs(neededCents) > mean + 1.28 * sd;
}

/** Strings under one clamp block: pairs from the thickest on, so that an odd one is left alone at the thin end. */
export function clampPairOf(index: number, strings: number): readonly number[] {
	const fromThick = strings - 1 - index;
	const low = strings - 1 - (Math.floor(fromThick / 2) * 2 + 1);
	return [low, low + 1].filter(at => at >= 0);
}
