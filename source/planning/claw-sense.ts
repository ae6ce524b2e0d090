import type {Belief} from '../estimation/belief.ts';
import {measured} from '../estimation/gaussian.ts';
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
/** A plate nobody has measured, metres. */
const anywhereSdM = 0.01;
/** Friction leaves the plate a little off every time, metres at the tail. Judgement. */
const restSdM = 0.00005;
/** How far the strings' part may be wrong, as a share of it. Judgement. */
const toComeShare = 0.1;
/** How far the plate may come to stand elsewhere, metres: other springs, the same hooked elsewhere, one new string of the same kind. Judgement. */
const unsettledSdM = {springs: 0.01, 're-hooked': 0.003, string: 0.0003} as const;

/**
 * Before anything was measured: the usual bridge, or what earlier set-ups of this one taught.
 *
 * @param seen The acting arm, ln of metres, as `armOf` gave it at the end of an earlier set-up.
 */
export function firstSense({mean, covariance, layout, model}: Belief, seen?: Estimate): ClawSense {
	const arm = seen ?? {
		mean: Math.log(nominal.springArmM) + mean[layout.springArm]! + usualSoftening.log,
		sd: Math.hypot(Math.sqrt(covariance.get(layout.springArm, layout.springArm)), usualSoftening.sd),
	};
	return {
		tailM: 0,
		logArm: arm.mean,
		tailVariance: anywhereSdM ** 2,
		shared: 0,
		armVariance: arm.sd ** 2 + (seen ? sinceThenSd ** 2 : 0),
		tailArmM: model.tailArmM,
	};
}

/** What weeks, another set of strings and a saddle moved here and there change of the acting arm, ln. Judgement. */
const sinceThenSd = 0.01;

/** The acting arm, ln of metres, for the instrument's memory: `firstSense` takes it back. */
export function armOf({logArm, armVariance}: ClawSense): Estimate {
	return {mean: logArm, sd: Math.sqrt(armVariance)};
}

/** True while how far the plate answers its claw is little more than a guess: a ruler from edge to hooks then makes it surer by a third. */
export function isArmGuessed({armVariance}: ClawSense): boolean {
	return armVariance > guessedArmSd ** 2;
}

/** A bridge never seen is unsure by 0.12, one with a measured arm by 0.09, ln. */
const guessedArmSd = 0.105;

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
	const told = (each: Belief): Belief => {
		const at = each.layout.springArm;
		const gradient = new Float64Array(each.layout.size);
		gradient[at] = 1;
		const innovation = Math.log(armM / nominal.springArmM) - each.mean[at]!;
		return {...each, ...measured(each, {gradient, innovation, variance: toldArmSd ** 2})};
	};
	const {rival, ...floating} = belief;
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

/**
 * @param advanceM Mean advance of both screws, metres, positive = tighter.
 * @param sdM How unsure that is beyond how exactly screws are set, metres; see `clawByEarSdM`.
 */
export function clawTurned(sense: ClawSense, advanceM: number, sdM = 0): ClawSense {
	const perArm = sense.tailArmM * Math.exp(-sense.logArm);
	// Tighter brings the tail down; a longer arm less so.
	const byArm = advanceM * perArm;
	const shared = sense.shared + byArm * sense.armVariance;
	return {
		...sense,
		tailM: sense.tailM - byArm,
		tailVariance:
			sense.tailVariance +
			2 * byArm * sense.shared +
			byArm ** 2 * sense.armVariance +
			(Math.hypot(noise.clawM, sdM) * perArm) ** 2,
		shared,
	};
}

/**
 * Strings were set with the tail held at a height, and the claw was then
 * turned until they were back: that is where it stands at pitch.
 *
 * @param heldM Height that the support was made for, metres above level.
 */
export function broughtBack(sense: ClawSense, heldM: number): ClawSense {
	return {...sense, tailM: heldM, tailVariance: noise.supportM ** 2 + restSdM ** 2, shared: 0};
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
