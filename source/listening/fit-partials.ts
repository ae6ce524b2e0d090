import {inverse, Matrix} from 'ml-matrix';
import {clearTrack} from './clear-track.ts';
import {type PartialLaw, partialHz} from './partial-law.ts';
import type {Tracks} from './partial-tracks.ts';
import {deviationsOf, stiffnessSlope, trustIn} from './partial-trust.ts';
import {leftOver, type PhaseSums, phaseSums, productOf, withPhase} from './phase-sums.ts';
import {noiseVariance, type Phases, phasesOf} from './phases.ts';

/** What the phases of all partials say about one pluck. */
export interface PartialFit {
	/** The law once the attack has died away. */
	readonly law: PartialLaw;
	/** One standard deviation of the first partial, cents: noise, what rings beside unseen, and the glide's shape. */
	readonly sdCents: number;
	/** One standard deviation of the stiffness coefficient. */
	readonly stiffnessSd: number;
	/** Sharp by this much at the onset, cents, dying as e^(-t/τ). */
	readonly glideCents: number;
	readonly glideTimeS: number;
	/** Pitch still moving, cents per second, beside the glide, and one standard deviation of that: a peg being turned, a finger bending. */
	readonly driftCentsPerS: number;
	readonly driftSdCentsPerS: number;
	/** Partials used, how far each lies from the law, and how far it was trusted (1 = fully). */
	readonly partials: readonly {
		readonly n: number;
		readonly amplitude: number;
		readonly offCents: number;
		readonly sdCents: number;
		readonly trust: number;
	}[];
	/** How many times worse the partials agree than their uncertainties allow; about 1 for a sound pluck. */
	readonly disagreement: number;
}

/** An unbroken stretch of sound, as tracks around one law. */
export interface Stretch {
	readonly tracks: Tracks;
	/** Time of the tracks' zero after the onset, s. */
	readonly firstS: number;
}

export interface FitSettings {
	/** Rounds of taking away what rings beside; 0 is quicker and coarser. */
	readonly clearings: number;
	/** Share of each partial's amplitude that is known to come from elsewhere, by partial number. */
	readonly beside: (n: number) => number;
}

const centsPerUnit = 1200 / Math.LN2;
/** Glides of 5 to 15 cents are usual after a pluck (large ones more: physics of the attack, common practice). */
const glidePriorSd = 12 / centsPerUnit;
/** Attacks settle in about 150 ms, give or take a quarter (common practice, no source). */
const usualGlideTimeS = 0.15;
const glideTimeSurprise = (timeS: number) => (Math.log(timeS / usualGlideTimeS) / 0.25) ** 2;
const stiffnessPriorSd = 1e-3;
/** Drift beside the glide, relative per second: 60 cents per second is a peg turned fast. */
const driftPriorSd = 60 / centsPerUnit;

/**
 * Fits pitch, stiffness and attack glide to all partials at once.
 *
 * The phase of partial n at time t after the onset is
 *
 *     φ_n + 2π f_n (t - g τ e^(-t/τ)),   f_n = n f₀ √(1 + B n²)
 *
 * with φ_n its own and f₀, B, g, τ common to all: every partial glides by the
 * same ratio, because it is the tension that falls. For a given τ and a start
 * within some cents this is linear least squares; τ is found by trying.
 * Partials that disagree with the rest are trusted less (`partial-trust.ts`),
 * and lines that ring beside a partial are fitted with it and taken away
 * (`clear-track.ts`).
 *
 * @param stretches Around one and the same `law`, half-integer tracks included.
 * @returns undefined if fewer than two partials stand out of the noise.
 */
export function fitPartials(
	stretches: readonly Stretch[],
	law: PartialLaw,
	settings: FitSettings,
): PartialFit | undefined {
	const prepared = stretches
		.filter(({tracks}) => tracks.timesS.length >= 5)
		.map(({tracks, firstS}) => ({tracks, timesS: tracks.timesS.map(t => t + firstS), noise: noiseVariance(tracks)}));
	const numbers = [...new Set(prepared.flatMap(({tracks}) => tracks.tracks.map(t => t.n)))].filter(Number.isInteger);

	const partialsWith = (fit?: PartialFit): readonly (readonly Phases[])[] =>
		numbers
			.map(n =>
				prepared
					.map(({tracks, timesS, noise}) => {
						const track = tracks.tracks.find(t => t.n === n)!;
						const clear = fit
							? clearTrack(track, timesS, expectedPhase(fit, n, track.referenceHz, timesS), noise)
							: track;
						return phasesOf(clear, timesS, noise, tracks.framesPerLook);
					})
					.filter(p => p !== undefined),
			)
			.filter(p => p.length > 0);

	let fit = fitPhases(partialsWith(), law, settings);
	for (let round = 0; fit && round < settings.clearings; round++)
		fit = fitPhases(partialsWith(fit), law, settings) ?? fit;
	return fit;
}

/** Phase of partial `n` beyond its reference, rad, as fitted. */
function expectedPhase(fit: PartialFit, n: number, referenceHz: number, timesS: Float64Array): Float64Array {
	const hz = partialHz(fit.law, n);
	const glide = fit.glideCents / centsPerUnit;
	return timesS.map(
		t => 2 * Math.PI * ((hz - referenceHz) * t - hz * glide * fit.glideTimeS * Math.exp(-t / fit.glideTimeS)),
	);
}

/** Times of decay from `aboutS`, each 15 % longer than the last, 50 to 450 ms. */
function glideTimesAbout(aboutS: number): readonly number[] {
	const times: number[] = [];
	for (let step = -16; step <= 16; step++) {
		const timeS = aboutS * 1.15 ** step;
		if (timeS > 0.05 && timeS < 0.45) times.push(timeS);
	}

	return times;
}

function fitPhases(
	partials: readonly (readonly Phases[])[],
	law: PartialLaw,
	{beside}: FitSettings,
): PartialFit | undefined {
	if (partials.length < 2) return undefined;
	const sumsAt = (timeS: number) => partials.map(p => phaseSums(p, timeS));
	const judge = (sums: readonly PhaseSums[], share: readonly number[]) => {
		const deviations = deviationsOf(sums, commonGlide(sums, share), beside);
		const trust = trustIn(sums, deviations, law, stiffnessPriorSd);
		// A partial that something unseen may have bent counts no more than that allows.
		return {
			deviations,
			trust,
			share: sums.map((_, i) => trust[i]! / (1 + (deviations[i]!.besideSd / deviations[i]!.noiseSd) ** 2)),
		};
	};
	const solveAll = (times: readonly number[], sums: readonly (readonly PhaseSums[])[], share: readonly number[]) => {
		const tries = sums.map(s => solveLaw(s, share, law));
		const costs = tries.map((t, i) => t.cost + glideTimeSurprise(times[i]!));
		return {tries, costs, best: costs.reduce((a, cost, i) => (cost < costs[a]! ? i : a), 0)};
	};

	// How far to trust each partial depends on the glide, and the glide on whom to trust: round and round, on a fixed ladder of times.
	const ladder = glideTimesAbout(usualGlideTimeS);
	const rungs = ladder.map(sumsAt);
	let at = ladder.indexOf(usualGlideTimeS);
	let judged = judge(
		rungs[at]!,
		partials.map(() => 1),
	);
	let glideTimeS = usualGlideTimeS;
	for (let round = 0; round < 4; round++) {
		const {costs, best} = solveAll(ladder, rungs, judged.share);
		glideTimeS = vertex(ladder, costs, best);
		at = best;
		judged = judge(rungs[at]!, judged.share);
	}

	// Then once more on a ladder that has the best time among its rungs.
	const times = glideTimesAbout(glideTimeS);
	const sums = times.map(sumsAt);
	const {tries, best} = solveAll(times, sums, judged.share);
	return conclude({
		sums: sums[best]!,
		...judge(sums[best]!, judged.share),
		share: judged.share,
		law,
		times,
		tries,
		best,
	});
}

/** Where a parabola through the best cost and its neighbours is least, over the logarithm of time. */
function vertex(times: readonly number[], costs: readonly number[], best: number): number {
	const [before, here, after] = [costs[best - 1], costs[best]!, costs[best + 1]];
	if (before === undefined || after === undefined) return times[best]!;
	const bend = before - 2 * here + after;
	const rungs = bend > 0 ? Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bend)) : 0;
	return times[best]! * 1.15 ** rungs;
}

/** The glide common to all partials when each may have a frequency of its own. */
function commonGlide(partials: readonly PhaseSums[], share: readonly number[]): number {
	let [top, bottom] = [0, 1 / glidePriorSd ** 2];
	for (const [i, sums] of partials.entries()) {
		const steady = productOf(sums, 'steady', 'steady');
		const mixed = productOf(sums, 'steady', 'glide');
		top += share[i]! * sums.turn * (withPhase(sums, 'glide') - (mixed * withPhase(sums, 'steady')) / steady);
		bottom += share[i]! * sums.turn ** 2 * (productOf(sums, 'glide', 'glide') - mixed ** 2 / steady);
	}

	return top / bottom;
}

interface Solution {
	/** Relative change of f₀, change of B, glide, drift. */
	readonly amounts: readonly number[];
	readonly covariance: Matrix;
	readonly cost: number;
}

/** Least squares for f₀, B, glide and, if wanted, drift. */
function solveLaw(
	partials: readonly PhaseSums[],
	share: readonly number[],
	law: PartialLaw,
	withDrift = false,
): Solution {
	const unknowns = withDrift
		? (['steady', 'steady', 'glide', 'drift'] as const)
		: (['steady', 'steady', 'glide'] as const);
	const priors = [0, 1 / stiffnessPriorSd ** 2, 1 / glidePriorSd ** 2, 1 / driftPriorSd ** 2];
	const size = unknowns.length;
	const normal = Matrix.zeros(size, size);
	const right = Matrix.zeros(size, 1);
	for (const [a] of unknowns.entries()) normal.set(a, a, priors[a]!);
	for (const [i, sums] of partials.entries()) {
		const lever = [1, stiffnessSlope(sums.n, law.stiffness), 1, 1];
		for (const [a, motion] of unknowns.entries()) {
			right.set(a, 0, right.get(a, 0) + share[i]! * sums.turn * lever[a]! * withPhase(sums, motion));
			for (const [b, other] of unknowns.entries()) {
				normal.set(
					a,
					b,
					normal.get(a, b) + share[i]! * sums.turn ** 2 * lever[a]! * lever[b]! * productOf(sums, motion, other),
				);
			}
		}
	}

	let covariance = inverse(normal);
	let amounts = covariance.mmul(right).to1DArray();
	if (law.stiffness + amounts[1]! < 0) {
		// Stiffness held at nothing: its row says so, whatever the phases say.
		const held = normal.clone();
		for (let b = 0; b < size; b++) held.set(1, b, b === 1 ? 1 : 0);
		const wish = right.clone().set(1, 0, -law.stiffness);
		amounts = inverse(held).mmul(wish).to1DArray();
		covariance = inverse(normal.clone().set(1, 1, normal.get(1, 1) * 4));
	}

	const [sharper, stiffer, glide, drift = 0] = amounts as [number, number, number, number?];
	let cost = priors.reduce((sum, prior, a) => sum + prior * (amounts[a] ?? 0) ** 2, 0);
	for (const [i, sums] of partials.entries()) {
		cost +=
			share[i]! * leftOver(sums, {steady: sharper + stiffnessSlope(sums.n, law.stiffness) * stiffer, glide, drift});
	}

	return {amounts, covariance, cost};
}

/** Blends the glide times tried, by how well each explains the phases, and counts up the uncertainty. */
function conclude(of: {
	readonly sums: readonly PhaseSums[];
	readonly deviations: ReturnType<typeof deviationsOf>;
	readonly trust: readonly number[];
	readonly share: readonly number[];
	readonly law: PartialLaw;
	readonly times: readonly number[];
	readonly tries: readonly Solution[];
	readonly best: number;
}): PartialFit {
	const {sums, deviations, trust, share, law, times, tries} = of;
	const best = tries[of.best]!;
	const looks = sums.reduce((sum, s, i) => sum + share[i]! * s.frames, 0);
	const worse = Math.max(1, best.cost / Math.max(1, looks));
	const likely = tries.map((t, i) => Math.exp(-(t.cost - best.cost) / 2 / worse - glideTimeSurprise(times[i]!) / 2));
	const total = likely.reduce((a, b) => a + b, 0);
	const blended = (of: (t: Solution) => number) => tries.reduce((sum, t, i) => sum + likely[i]! * of(t), 0) / total;

	const idealHz = law.idealHz * Math.exp(blended(t => t.amounts[0]!));
	const stiffness = Math.max(0, law.stiffness + blended(t => t.amounts[1]!));
	// Relative change of the first partial: that of f₀ and half of B.
	const first = (t: Solution) => t.amounts[0]! + t.amounts[1]! / 2;
	const middle = blended(first);
	const spread = blended(t => (first(t) - middle) ** 2);
	const {covariance} = best;
	const variance = covariance.get(0, 0) + covariance.get(0, 1) + covariance.get(1, 1) / 4;

	const partials = sums.map((s, i) => {
		const {relative, noiseSd, besideSd} = deviations[i]!;
		const offCents = centsPerUnit * (Math.log(s.referenceHz / partialHz({idealHz, stiffness}, s.n)) + relative);
		return {
			n: s.n,
			amplitude: s.amplitude,
			offCents,
			sdCents: centsPerUnit * Math.hypot(noiseSd, besideSd),
			trust: trust[i]!,
		};
	});
	const trusted = trust.reduce((a, b) => a + b, 0);
	const agreement =
		partials.reduce((sum, p) => sum + p.trust * (p.offCents / p.sdCents) ** 2, 0) / Math.max(1, trusted - 2);
	const moving = solveLaw(sums, share, law, true);
	return {
		law: {idealHz, stiffness},
		sdCents: centsPerUnit * Math.sqrt(variance * Math.max(1, agreement, worse) + spread),
		stiffnessSd: Math.sqrt(covariance.get(1, 1) * Math.max(1, agreement, worse)),
		glideCents: centsPerUnit * blended(t => t.amounts[2]!),
		glideTimeS: times[of.best]!,
		driftCentsPerS: centsPerUnit * moving.amounts[3]!,
		driftSdCentsPerS: centsPerUnit * Math.sqrt(moving.covariance.get(3, 3) * Math.max(1, agreement, worse)),
		partials,
		disagreement: Math.sqrt(agreement),
	};
}
