import type {Belief} from '../estimation/belief.ts';
import {forgotten} from '../estimation/gaussian.ts';

/** As if the plate could stand anywhere between its stops, shares of the strings' moment. */
const anywhereSd = 0.5;

/**
 * The belief just before the plate is measured for the first time: how level
 * it stood is taken as not known at all. Otherwise a far tilt, which belief
 * holds unlikely, would be put down half to softer springs, and an owner who
 * has turned the claw since the last set-up would unsettle all that it taught.
 */
export function plateUnknown(belief: Belief): Belief {
	const covariance = forgotten(belief.covariance, belief.layout.home, anywhereSd ** 2);
	const {rival} = belief;
	return {
		...belief,
		covariance,
		...(rival ? {rival: {...rival, belief: plateUnknown(rival.belief)}} : {}),
	};
}
