import {asBuilt} from '../estimation/as-built.ts';
import type {Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {holdCents} from '../estimation/hold.ts';
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
