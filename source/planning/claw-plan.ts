import {type Belief, bridgeOf, levelRad} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {holdCents} from '../estimation/hold.ts';
import {nominal} from '../estimation/priors.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {momentAndSlope} from '../physics/bridge.ts';
import {momentPerClawMetreNm} from '../physics/claw.ts';
import {allAtPitch, endPlaces} from './landing.ts';

/** How the plate stands, and what the claw must do for it to stand as wished once all is at pitch. */
export interface ClawPlan {
	/** Tail height above level now, metres. */
	readonly tailM: Estimate;
	/** Tail height once every string is at pitch with the claw as it is, metres. */
	readonly tailAtPitchM: Estimate;
	/** Advance of both claw screws that brings the wish at pitch, metres, positive = tighter. */
	readonly advanceM: Estimate;
	/** Pull of one spring with the plate as wished and every string at pitch, newtons. */
	readonly springForceN: Estimate;
}

/**
 * Turns first, then one guided pass: the advance is chosen for the end state,
 * which does not depend on the order in which it is reached.
 *
 * @param wishTailM Tail height wanted at pitch, metres, positive = tail high.
 */
export function planClaw(belief: Belief, wishTailM: number): ClawPlan {
	const on = belief.strings.flatMap((status, index) => (status.on === 'off' ? [] : [index]));
	const all = allAtPitch(belief, new Set(on));
	const arm = belief.model.tailArmM;
	const wishRad = -Math.asin(Math.max(-0.5, Math.min(0.5, wishTailM / arm)));
	const {estimates} = propagated(belief, x => {
		const bridge = bridgeOf(belief, x);
		const level = levelRad(belief, x);
		const floating = {...belief, blocked: false};
		const end = holdCents(floating, x, endPlaces(all));
		// With the plate held at the wish and every string at pitch, what is out of balance is the claw's to give.
		const wished = holdCents({...belief, blocked: true}, withSupport(belief, x, level + wishRad), endPlaces(all));
		const [shortNm] = momentAndSlope(bridgeOf(belief, wished.x), level + wishRad);
		const springArmM = nominal.springArmM * Math.exp(x[belief.layout.springArm]!);
		const now = holdCents(
			belief,
			x,
			belief.strings.map(() => undefined),
		);
		const springMomentNm = bridge.springMomentAtLevelNm + shortNm - bridge.springRateNmPerRad * (level + wishRad);
		return [
			-arm * Math.sin(now.angleRad - level),
			-arm * Math.sin(end.angleRad - level),
			shortNm / momentPerClawMetreNm(bridge.springRateNmPerRad, springArmM),
			springMomentNm / (springArmM * belief.model.springs),
		];
	});
	const [tailM, tailAtPitchM, advanceM, springForceN] = estimates as Estimate[];
	return {tailM: tailM!, tailAtPitchM: tailAtPitchM!, advanceM: advanceM!, springForceN: springForceN!};
}

function withSupport(belief: Belief, x: Float64Array, angleRad: number): Float64Array {
	const y = Float64Array.from(x);
	y[belief.layout.support] = angleRad;
	return y;
}
