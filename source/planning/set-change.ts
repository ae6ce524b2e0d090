import type {Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {holdCents} from '../estimation/hold.ts';
import {priorSd} from '../estimation/priors.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {angleFromLevel} from '../estimation/belief.ts';
import {type ClawPlan, planClaw} from './claw-plan.ts';
import {allAtPitch, centsOf, endPlaces, tensionsOf} from './landing.ts';

/** What new strings or a new tuning will do if springs and claw stay as they are. */
export interface SetChange {
	/** Pull of every string at its new pitch, newtons. */
	readonly tensionN: readonly Estimate[];
	/** All of them together, newtons. */
	readonly totalN: Estimate;
	/** Brought to pitch on a support that holds the plate as it came in, then let go: where every string would sound, cents. */
	readonly letGoCents: readonly (Estimate | undefined)[];
	/** The tail then, metres above level. */
	readonly letGoTailM: Estimate;
	/** Plate at pitch with the claw as it is, and what the claw must do. */
	readonly claw: ClawPlan;
}

/**
 * Forecast of a change before anything is undone.
 *
 * @param belief Of the instrument with its new strings and targets, the springs as the old ones left them; see `withOldStrings`.
 * @param wishTailM Tail height wanted at pitch, metres.
 */
export function forecastChange(belief: Belief, wishTailM: number): SetChange {
	const n = belief.strings.length;
	const seen = asBuilt(belief);
	const fitted: Belief = {...seen, strings: belief.strings.map(status => ({...status, on: 'sounding'}))};
	const places = endPlaces(allAtPitch(fitted, new Set(belief.strings.keys())));
	const held: Belief = {...fitted, blocked: true};
	const floating: Belief = {...fitted, blocked: false};
	const {estimates} = propagated(fitted, x => {
		const supported = Float64Array.from(x);
		supported[fitted.layout.support] = 0;
		const atPitch = holdCents(held, supported, places).x;
		const tensions = tensionsOf(held, atPitch);
		return [
			...tensions,
			tensions.reduce((sum, tension) => sum + tension, 0),
			...centsOf(floating, atPitch),
			-fitted.model.tailArmM * Math.sin(angleFromLevel(floating, atPitch)),
		];
	});
	return {
		tensionN: estimates.slice(0, n).map(each => each!),
		totalN: estimates[n]!,
		letGoCents: estimates.slice(n + 1, 2 * n + 1),
		letGoTailM: estimates[2 * n + 1]!,
		claw: planClaw(floating, wishTailM),
	};
}

/** Rates less sure than this share of what is assumed of any bridge have not been seen to answer. */
const unseenShare = 0.9;

/**
 * A bridge never seen, with what its parts have in common: springs know
 * nothing of the saddles' height, so K / h² is less where h is more, and more
 * where the springs' arm is. Claw turns for a change go with h K⁻¹, and taken
 * apart the two would make them seem twice as unsure as they are. Once strings
 * have answered one another, what was learned stands instead.
 */
function asBuilt(belief: Belief): Belief {
	const {rate, arm, springArm} = belief.layout;
	const {covariance: found} = belief;
	if (found.get(rate, rate) < unseenShare * priorSd.rate ** 2) return belief;
	const covariance = found.clone();
	const together = (other: number, value: number) => {
		covariance.set(rate, other, value);
		covariance.set(other, rate, value);
	};
	together(arm, -2 * found.get(arm, arm));
	together(springArm, 2 * found.get(springArm, springArm));
	return {...belief, covariance};
}
