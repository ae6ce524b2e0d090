import {centsPerLog} from '../music/pitch.ts';
import type {FitSettings, PartialFit} from './fit-partials.ts';
import {type PartialLaw, partialHz} from './partial-law.ts';
import {deviationsOf, trustIn} from './partial-trust.ts';
import {type PhaseSums, phaseSums, productOf, withPhase} from './phase-sums.ts';
import type {Phases} from './phases.ts';
import {glidePriorSd, type LawShift, solveLaw, stiffnessPriorSd} from './solve-law.ts';

/** Attacks settle in about 150 ms, give or take a quarter (common practice, no source). */
const usualGlideTimeS = 0.15;
const glideTimeSurprise = (timeS: number) => (Math.log(timeS / usualGlideTimeS) / 0.25) ** 2;

/** Times of decay from `aboutS`, each 15 % longer than the last, 50 to 450 ms. */
function glideTimesAbout(aboutS: number): readonly number[] {
	const times: number[] = [];
	for (let step = -16; step <= 16; step++) {
		const timeS = aboutS * 1.15 ** step;
		if (timeS > 0.05 && timeS < 0.45) times.push(timeS);
	}

	return times;
}

/**
 * Fits the law to phases, trusting each partial as far as it agrees with the
 * others; see `fitPartials`.
 *
 * @returns undefined if there are fewer than two partials.
 */
export function fitPhases(
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

/** Blends the glide times tried, by how well each explains the phases, and counts up the uncertainty. */
function conclude(of: {
	readonly sums: readonly PhaseSums[];
	readonly deviations: ReturnType<typeof deviationsOf>;
	readonly trust: readonly number[];
	readonly share: readonly number[];
	readonly law: PartialLaw;
	readonly times: readonly number[];
	readonly tries: readonly LawShift[];
	readonly best: number;
}): PartialFit {
	const {sums, deviations, trust, share, law, times, tries} = of;
	const best = tries[of.best]!;
	const looks = sums.reduce((sum, s, i) => sum + share[i]! * s.frames, 0);
	const worse = Math.max(1, best.cost / Math.max(1, looks));
	const likely = tries.map((t, i) => Math.exp(-(t.cost - best.cost) / 2 / worse - glideTimeSurprise(times[i]!) / 2));
	const total = likely.reduce((a, b) => a + b, 0);
	const blended = (of: (t: LawShift) => number) => tries.reduce((sum, t, i) => sum + likely[i]! * of(t), 0) / total;

	const idealHz = law.idealHz * Math.exp(blended(t => t.sharper));
	const stiffness = Math.max(0, law.stiffness + blended(t => t.stiffer));
	// Relative change of the first partial: that of f₀ and half of B.
	const first = (t: LawShift) => t.sharper + t.stiffer / 2;
	const middle = blended(first);
	const spread = blended(t => (first(t) - middle) ** 2);
	const {covariance} = best;
	const variance = covariance.get(0, 0) + covariance.get(0, 1) + covariance.get(1, 1) / 4;

	const partials = sums.map((s, i) => {
		const {relative, noiseSd, besideSd} = deviations[i]!;
		const offCents = centsPerLog * (Math.log(s.referenceHz / partialHz({idealHz, stiffness}, s.n)) + relative);
		return {
			n: s.n,
			amplitude: s.amplitude,
			offCents,
			sdCents: centsPerLog * Math.hypot(noiseSd, besideSd),
			trust: trust[i]!,
		};
	});
	const trusted = trust.reduce((a, b) => a + b, 0);
	const agreement =
		partials.reduce((sum, p) => sum + p.trust * (p.offCents / p.sdCents) ** 2, 0) / Math.max(1, trusted - 2);
	return {
		law: {idealHz, stiffness},
		sdCents: centsPerLog * Math.sqrt(variance * Math.max(1, agreement, worse) + spread),
		stiffnessSd: Math.sqrt(covariance.get(1, 1) * Math.max(1, agreement, worse)),
		glideCents: centsPerLog * blended(t => t.glide),
		glideTimeS: times[of.best]!,
		partials,
		disagreement: Math.sqrt(agreement),
	};
}
