import {asBuilt} from './as-built.ts';
import {type Belief, nominalRateNmPerRad, springMomentNm} from './belief.ts';
import {varianceAlong} from './gaussian.ts';
import {measuredQuantity} from './heard.ts';
import {nominal} from './priors.ts';
import type {Linearised} from './reading-model.ts';

/**
 * What it takes to open the coils at all, as a stretch: initial tension over
 * rate, Fᵢ/k, metres. Close-wound as spring makers prefer it
 * (`preferredInitialStressPa`), a spring as claws have, wire 1.1 to 1.3 mm,
 * coil 6 to 6.5 mm, some 40 turns (judgement), has 5 to 9 mm. Heat after
 * winding takes a quarter to a half of it away (common practice, from memory),
 * and one wound open has none.
 */
export const openingStretchM = {mean: 0.004, sd: 0.002} as const;

/** Two lengths by ruler, or turns times wire by caliper, and springs of one make that are not quite alike, metres. Judgement. */
const rulerSdM = 0.0008;

/** Least that springs under load can be taken to stand stretched, metres. */
const leastM = 0.001;

/**
 * How far the claw springs stood stretched when the guitar came in. Springs
 * of rate k that pull F = Fᵢ + k e each (close-wound extension springs:
 * Shigley, ch. 10) on an arm a give
 *
 *     M = n (Fᵢ + k e) a     and per metre of claw advance     dM/dδ = n k a,
 *
 * so M / (dM/dδ) = e + Fᵢ/k, whatever their number, rate and arm: a share of
 * the springs' pull more wants that share of this length in claw advance. Own
 * derivation, hooks straight below the knife edge. The belief has M as its
 * balance and dM/dδ by rate and arms, and these learn from it together; they
 * must have in common what the parts of any bridge have, see `asBuilt`.
 *
 * @param stretchM e, coil body as it stood less the same coils closed up, metres, > 0.
 */
export function stretchMeasured(belief: Belief, stretchM: number): Belief {
	const {logM, sd} = effectiveStretch(stretchM);
	return measuredQuantity(asBuilt(belief), logM, sd, linearisedStretch);
}

/** ln of how likely the reading was beforehand, constants common to all accounts left out; long tails as in `logLikelihoodOf`. */
export function logLikelihoodOfStretch(belief: Belief, stretchM: number): number {
	const {logM, sd} = effectiveStretch(stretchM);
	const {value, gradient} = linearisedStretch(belief, belief.mean);
	const variance = varianceAlong(asBuilt(belief).covariance, gradient) + sd * sd;
	const misfit = Math.min((logM - value) ** 2 / variance, 12);
	return -0.5 * (misfit + Math.log(variance / (sd * sd)));
}

/** ln of e + Fᵢ/k, metres, and how unsure that is (one standard deviation of the ln). */
export function effectiveStretch(stretchM: number): {readonly logM: number; readonly sd: number} {
	const effectiveM = stretchM + openingStretchM.mean;
	return {logM: Math.log(effectiveM), sd: Math.hypot(rulerSdM, openingStretchM.sd) / effectiveM};
}

/** What a ruler is expected to show, metres, by the believed mean. */
export function foreseenStretchM(belief: Belief): number {
	return Math.max(leastM, Math.exp(linearisedStretch(belief, belief.mean).value) - openingStretchM.mean);
}

/**
 * ln of the effective stretch, as it came in: a (M/K − θ), with the plate at
 * rest where angles are counted from, θ = 0, or, with no string on, on its stop.
 */
export function linearisedStretch(belief: Belief, x: ArrayLike<number>): Linearised {
	const {layout, model} = belief;
	const armM = nominal.springArmM * Math.exp(x[layout.springArm]!);
	const rateNmPerRad = nominalRateNmPerRad(model) * Math.exp(x[layout.rate]! + 2 * x[layout.arm]!);
	const wholeM = (armM * springMomentNm(belief, x, 0)) / rateNmPerRad;
	const isBare = belief.strings.every(({on}) => on !== 'sounding');
	const stretchM = Math.max(leastM, wholeM - (isBare ? armM * x[layout.stop]! : 0));
	const share = wholeM / stretchM;
	const gradient = new Float64Array(layout.size);
	gradient[layout.balance] = share / (1 + x[layout.balance]!);
	gradient[layout.rate] = -share;
	gradient[layout.arm] = -share;
	gradient[layout.springArm] = 1;
	if (isBare) gradient[layout.stop] = -armM / stretchM;
	return {value: Math.log(stretchM), gradient};
}
