import {weightedMedian} from './drift.ts';
import type {PartialLaw} from './partial-law.ts';
import {leftOver, type PhaseSums, productOf, withPhase} from './phase-sums.ts';

/** How far one partial's frequency lies from its reference (relative), and how well that is known. */
export interface Deviation {
	readonly relative: number;
	/** One standard deviation from noise alone. */
	readonly noiseSd: number;
	/** One standard deviation from what rings beside it unseen. */
	readonly besideSd: number;
	/** The same if another string rings along at full strength: weak partials may then be not this tone's at all. */
	readonly fearedSd: number;
}

/**
 * Phase error to expect of any partial, however clean, rad: strings ringing
 * along on nearly the same frequency at about a fiftieth of it. Set so that
 * stated uncertainties cover the errors of the benchmark's plucks.
 */
const unseenRad = 0.02;
/** Beats that are seen average out; this share of them is feared to have stayed. */
const feltShareOfBeats = 0.35;

/** Each partial on its own, the glide given. */
export function deviationsOf(
	partials: readonly PhaseSums[],
	glide: number,
	beside: (n: number) => number,
): readonly Deviation[] {
	const level = Math.sqrt(partials.reduce((sum, p) => sum + p.amplitude ** 2 / 2, 0));
	return partials.map(sums => {
		const steady = productOf(sums, 'steady', 'steady');
		const relative = (withPhase(sums, 'steady') / sums.turn - glide * productOf(sums, 'steady', 'glide')) / steady;
		// Mean square phase left beyond what noise explains; a beat of depth ρ leaves ρ²/2.
		const beyond = Math.max(0, leftOver(sums, {steady: relative, glide}) - (sums.frames - 3)) / sums.weight;
		const rad = Math.hypot(unseenRad, feltShareOfBeats * Math.sqrt(2 * beyond), beside(sums.n));
		const spanS = Math.sqrt((12 * steady) / sums.weight);
		// A line of share ρ within one turn of the partial over the span tilts its phase by up to 3.5 ρ / span; 2.5 with the phase drawn at random.
		const perRad = 2.5 / spanS / sums.turn;
		const fear = (fearedShare * level) / sums.amplitude;
		return {
			relative,
			noiseSd: 1 / (sums.turn * Math.sqrt(steady)),
			besideSd: perRad * rad,
			fearedSd: perRad * Math.hypot(rad, fear),
		};
	});
}

/** Amplitude of a line of another string that rings along, share of the whole tone's level, when the first choice of whom to trust is made. */
const fearedShare = 0.02;

/** How ln f_n answers to the stiffness coefficient: ½ n² / (1 + B n²). */
export function stiffnessSlope(n: number, stiffness: number): number {
	return (0.5 * n * n) / (1 + stiffness * n * n);
}

/** Frequencies (relative) and stiffness (absolute) against the law that the references came from. */
interface Shift {
	readonly sharper: number;
	readonly stiffer: number;
}

/**
 * How far to trust each partial, 0 to 1: least squares of the law through all
 * deviations, over and over, each weighted by 1 / (1 + (z/2)²) of its distance
 * (a Cauchy weight). Such a fit stays where it starts, so it starts from the
 * best of a range of stiffnesses, each with the median pitch that goes with it.
 */
export function trustIn(
	partials: readonly PhaseSums[],
	deviations: readonly Deviation[],
	law: PartialLaw,
	stiffnessPriorSd: number,
): readonly number[] {
	const slopes = partials.map(p => stiffnessSlope(p.n, law.stiffness));
	let sds = deviations.map(d => Math.hypot(d.noiseSd, d.fearedSd));
	const off = ({sharper, stiffer}: Shift, i: number) =>
		(deviations[i]!.relative - sharper - slopes[i]! * stiffer) / sds[i]!;
	const trustAt = (shift: Shift) => deviations.map((_, i) => 1 / (1 + (off(shift, i) / halvedAt) ** 2));

	let shift = bestStart(deviations, slopes, sds, law.stiffness, off);
	for (let round = 0; round < 12; round++) {
		// Strong partials lead at first; once the law is near, all are judged by what they are.
		if (round === 6) sds = deviations.map(d => Math.hypot(d.noiseSd, d.besideSd));
		let [s00, s01, s11, v0, v1] = [0, 0, 1 / stiffnessPriorSd ** 2, 0, 0];
		for (const [i, trust] of trustAt(shift).entries()) {
			const w = trust / sds[i]! ** 2;
			const slope = slopes[i]!;
			const {relative} = deviations[i]!;
			s00 += w;
			s01 += w * slope;
			s11 += w * slope * slope;
			v0 += w * relative;
			v1 += w * slope * relative;
		}

		// Stiffness cannot be negative.
		const stiffer = Math.max(-law.stiffness, (s00 * v1 - s01 * v0) / (s00 * s11 - s01 * s01));
		shift = {sharper: (v0 - s01 * stiffer) / s00, stiffer};
	}

	return trustAt(shift);
}

/** Relative deviation, in standard deviations, at which trust is halved. */
const halvedAt = 2;
/** Tried besides no stiffness at all and the one expected. */
const stiffnessesTried = Array.from({length: 31}, (_, i) => 1e-5 * 1.2 ** i);

function bestStart(
	deviations: readonly Deviation[],
	slopes: readonly number[],
	sds: readonly number[],
	stiffness: number,
	off: (shift: Shift, i: number) => number,
): Shift {
	let best: Shift = {sharper: 0, stiffer: 0};
	let least = Number.POSITIVE_INFINITY;
	for (const tried of [stiffness, 0, ...stiffnessesTried]) {
		const stiffer = tried - stiffness;
		const shift = {
			sharper: weightedMedian(deviations.map((d, i) => [d.relative - slopes[i]! * stiffer, 1 / sds[i]!] as const)),
			stiffer,
		};
		const strangeness = deviations.reduce((sum, _, i) => sum + Math.log1p((off(shift, i) / halvedAt) ** 2), 0);
		if (strangeness < least) [least, best] = [strangeness, shift];
	}

	return best;
}
