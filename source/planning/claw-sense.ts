import type {Belief} from '../estimation/belief.ts';
import {nominal, noise} from '../estimation/priors.ts';
import type {Estimate} from '../numeric/estimate.ts';

/**
 * What measures of the plate and turns of the claw have told, apart from all
 * else: where the tail stands once every string is at pitch, and how far it
 * answers to the claw there. Tuning does not change either, so both outlast a
 * pass, and a ruler alone teaches them:
 *
 *     tail at pitch  =  tail shown + what the strings still have to bring
 *     tail change    =  - e · advance / arm
 *
 * with e the arm of the tail edge and `arm` the springs' arm as it acts at
 * pitch. Contacts and hooks behind the knife edge soften the bridge, so it is
 * shorter than the block: arm = a (1 - softening). Own derivation.
 */
export interface ClawSense {
	/** Tail height at pitch, metres above level. */
	readonly tailM: number;
	/** ln of the acting arm, metres. */
	readonly logArm: number;
	/** Variances and covariance: m², m, 1. */
	readonly tailVariance: number;
	readonly shared: number;
	readonly armVariance: number;
	readonly tailArmM: number;
}

/**
 * Usual softening at pitch as ln(1 - softening), and how that differs between
 * bridges. Judgement, no source: contacts some 7 mm behind the edge on three
 * or four usual springs take away a fifth to a quarter.
 */
const usualSoftening = {log: -0.26, sd: 0.09} as const;
/** Spread of springs' arms among bridges never seen, ln; judgement as in `priors.ts`: 35 to 45 mm. */
const unseenArmSd = 0.08;
/** A plate nobody has measured, metres. */
const anywhereSdM = 0.01;
/** Friction leaves the plate a little off every time, metres at the tail. Judgement. */
const restSdM = 0.00005;
/** How far the strings' part may be wrong, as a share of it. Judgement. */
const toComeShare = 0.1;
/** How far the plate may come to stand elsewhere, metres: other springs, the same hooked elsewhere, one new string of the same kind. Judgement. */
const unsettledSdM = {springs: 0.01, 're-hooked': 0.003, string: 0.0003} as const;

/** Before anything was measured: the usual bridge, or what earlier set-ups of this one taught. */
export function firstSense({mean, covariance, layout, model}: Belief): ClawSense {
	const armVariance = covariance.get(layout.springArm, layout.springArm);
	// The less was seen of this bridge, the more its softening is anybody's guess.
	const unseen = Math.min(1, armVariance / unseenArmSd ** 2);
	return {
		tailM: 0,
		logArm: Math.log(nominal.springArmM) + mean[layout.springArm]! + usualSoftening.log,
		tailVariance: anywhereSdM ** 2,
		shared: 0,
		armVariance: armVariance + unseen * usualSoftening.sd ** 2,
		tailArmM: model.tailArmM,
	};
}

/** The belief with the acting arm written into its spring arm, for the instrument's memory: `firstSense` reads it back. */
export function withClawSense(belief: Belief, {logArm, armVariance}: ClawSense): Belief {
	const {layout} = belief;
	const mean = Float64Array.from(belief.mean);
	mean[layout.springArm] = logArm - usualSoftening.log - Math.log(nominal.springArmM);
	const covariance = belief.covariance.clone();
	const scale = Math.sqrt(
		armVariance / (1 + (usualSoftening.sd / unseenArmSd) ** 2) / covariance.get(layout.springArm, layout.springArm),
	);
	for (let at = 0; at < layout.size; at++) {
		covariance.set(layout.springArm, at, covariance.get(layout.springArm, at) * scale);
		covariance.set(at, layout.springArm, covariance.get(at, layout.springArm) * scale);
	}

	return {...belief, mean, covariance};
}

/** How well the springs' arm can be measured with a ruler, ln: about a millimetre of forty. Judgement. */
const toldArmSd = 0.025;

/**
 * The belief with the springs' arm as somebody measured it: knife edge to
 * where the springs hook into the block. How much this bridge softens stays
 * as unknown as it was.
 *
 * @param armM Metres, > 0.
 */
export function withArmTold(belief: Belief, armM: number): Belief {
	const weight = unseenArmSd ** 2 / (unseenArmSd ** 2 + toldArmSd ** 2);
	const log = Math.log(nominal.springArmM) + weight * Math.log(armM / nominal.springArmM);
	const {rival, ...floating} = belief;
	const told = (each: Belief) =>
		withClawSense(each, {
			...firstSense(each),
			logArm: log + usualSoftening.log,
			armVariance: weight * toldArmSd ** 2 + usualSoftening.sd ** 2,
		});
	return rival ? {...told(floating), rival: {...rival, belief: told(rival.belief)}} : told(floating);
}

/**
 * @param shownM Tail height as measured, metres.
 * @param toComeM What the strings still off pitch will add to it, metres.
 */
export function plateSeen(sense: ClawSense, shownM: number, toComeM: Estimate): ClawSense {
	const noiseVariance = noise.tailM ** 2 + restSdM ** 2 + toComeM.sd ** 2 + (toComeShare * toComeM.mean) ** 2;
	const total = sense.tailVariance + noiseVariance;
	const step = (shownM + toComeM.mean - sense.tailM) / total;
	return {
		...sense,
		tailM: sense.tailM + sense.tailVariance * step,
		logArm: sense.logArm + sense.shared * step,
		tailVariance: (sense.tailVariance * noiseVariance) / total,
		shared: (sense.shared * noiseVariance) / total,
		armVariance: sense.armVariance - sense.shared ** 2 / total,
	};
}

/** @param advanceM Mean advance of both screws, metres, positive = tighter. */
export function clawTurned(sense: ClawSense, advanceM: number): ClawSense {
	const perArm = sense.tailArmM * Math.exp(-sense.logArm);
	// Tighter brings the tail down; a longer arm less so.
	const byArm = advanceM * perArm;
	const shared = sense.shared + byArm * sense.armVariance;
	return {
		...sense,
		tailM: sense.tailM - byArm,
		tailVariance:
			sense.tailVariance + 2 * byArm * sense.shared + byArm ** 2 * sense.armVariance + (noise.clawM * perArm) ** 2,
		shared,
	};
}

/** Springs or strings changed: where the plate will stand is open again, how it answers the claw is not. */
export function unsettled(sense: ClawSense, by: keyof typeof unsettledSdM): ClawSense {
	return {...sense, tailVariance: sense.tailVariance + unsettledSdM[by] ** 2};
}

/** Advance of both screws that brings the wish at pitch, metres, positive = tighter. */
export function advanceFor(
	{tailM, logArm, tailVariance, shared, armVariance, tailArmM}: ClawSense,
	wishM: number,
): Estimate {
	const perTail = Math.exp(logArm) / tailArmM;
	const offM = tailM - wishM;
	return {
		mean: perTail * offM,
		sd: perTail * Math.sqrt(Math.max(0, tailVariance + 2 * offM * shared + offM ** 2 * armVariance)),
	};
}
