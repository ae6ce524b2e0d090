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
	/** What the strings still off pitch will add to the tail's height now, metres. */
	readonly toComeM: Estimate;
	/** Advance of both claw screws that brings the wish at pitch, metres, positive = tighter. */
	readonly advanceM: Estimate;
	/** Pull of one spring with the plate as wished and every string at pitch, newtons. */
	readonly springForceN: Estimate;
	/** Rate of one spring, N/m, by the believed mean. */
	readonly springRateNPerM: number;
	/** How far the tail goes down at pitch, metres per metre of advance, by the believed mean. */
	readonly tailPerAdvance: number;
}

/**
 * Turns first, then one guided pass: the advance is chosen for the end state,
 * which does not depend on the order in which it is reached.
 *
 * @param wishTailM Tail height wanted at pitch, metres, positive = tail high.
 */
export function planClaw(belief: Belief, wishTailM: number): ClawPlan {
	const arm = belief.model.tailArmM;
	const wishRad = tiltFor(belief, wishTailM);
	const ends = atPitch(belief);
	const {estimates} = propagated(belief, x => {
		const bridge = bridgeOf(belief, x);
		const level = levelRad(belief, x);
		const end = holdCents({...belief, blocked: false}, x, ends);
		const shortNm = missingMomentNm(belief, x, level + wishRad, ends);
		const now = holdCents(
			belief,
			x,
			belief.strings.map(() => undefined),
		);
		const springMomentNm = bridge.springMomentNm + shortNm - bridge.springRateNmPerRad * (level + wishRad);
		return [
			-arm * Math.sin(now.angleRad - level),
			-arm * Math.sin(end.angleRad - level),
			arm * (Math.sin(now.angleRad - level) - Math.sin(end.angleRad - level)),
			shortNm / momentPerMetreNm(belief, x),
			springMomentNm / (springArmM(belief, x) * belief.model.springs),
		];
	});
	const [tailM, tailAtPitchM, toComeM, advanceM, springForceN] = estimates as Estimate[];
	return {
		tailM: tailM!,
		tailAtPitchM: tailAtPitchM!,
		toComeM: toComeM!,
		advanceM: advanceM!,
		springForceN: springForceN!,
		...answersToClaw(belief, belief.mean, levelRad(belief, belief.mean) + wishRad, ends),
	};
}

/** What the claw must do before a support is taken out, for the plate to stand as wished the moment it is, metres, positive = tighter. */
export function advanceBeforeRelease(belief: Belief, wishTailM: number): Estimate {
	const wishRad = tiltFor(belief, wishTailM);
	const untouched = belief.strings.map(() => undefined);
	const {estimates} = propagated(belief, x => [
		missingMomentNm(belief, x, levelRad(belief, x) + wishRad, untouched) / momentPerMetreNm(belief, x),
	]);
	return estimates[0]!;
}

/** Angle from level at which the tail stands this high. */
function tiltFor({model}: Belief, tailM: number): number {
	return -Math.asin(Math.max(-0.5, Math.min(0.5, tailM / model.tailArmM)));
}

function atPitch(belief: Belief): (number | undefined)[] {
	const on = belief.strings.flatMap((status, index) => (status.on === 'off' ? [] : [index]));
	return endPlaces(allAtPitch(belief, new Set(on)));
}

/** With the plate held at an angle and some strings at their places, what is out of balance is the claw's to give, N m. */
function missingMomentNm(
	belief: Belief,
	x: Float64Array,
	angleRad: number,
	places: readonly (number | undefined)[],
): number {
	const y = Float64Array.from(x);
	y[belief.layout.support] = angleRad;
	const held = holdCents({...belief, blocked: true}, y, places);
	return momentAndSlope(bridgeOf(belief, held.x), angleRad)[0];
}

function springArmM({layout}: Belief, x: ArrayLike<number>): number {
	return nominal.springArmM * Math.exp(x[layout.springArm]!);
}

function momentPerMetreNm(belief: Belief, x: ArrayLike<number>): number {
	return momentPerClawMetreNm(bridgeOf(belief, x).springRateNmPerRad, springArmM(belief, x));
}

/** Small enough for the slope, large enough for rounding, radians. */
const probeRad = 1e-4;

function answersToClaw(belief: Belief, x: Float64Array, angleRad: number, places: readonly (number | undefined)[]) {
	const [above, below] = [probeRad, -probeRad].map(by => missingMomentNm(belief, x, angleRad + by, places));
	const perRadNm = (above! - below!) / (2 * probeRad);
	return {
		springRateNPerM: bridgeOf(belief, x).springRateNmPerRad / (belief.model.springs * springArmM(belief, x) ** 2),
		tailPerAdvance: (belief.model.tailArmM * momentPerMetreNm(belief, x)) / perRadNm,
	};
}
