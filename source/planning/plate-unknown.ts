import {angleFor, type Belief} from '../estimation/belief.ts';
import {forgotten} from '../estimation/gaussian.ts';

/** As if the plate could stand anywhere between its stops, shares of the strings' moment. */
const anywhereSd = 0.5;
/** A back stop nearer to level than this is none, radians. Judgement. */
const leastStopRad = 0.02;

/**
 * The belief just before the plate is measured for the first time: how level
 * it stood is taken as not known at all. Otherwise a far tilt, which belief
 * holds unlikely, would be put down half to softer springs, and an owner who
 * has turned the claw since the last set-up would unsettle all that it taught.
 *
 * A plate that stands higher than any stop would let it did not come in lying
 * on one: that account is dropped.
 *
 * @param shownM Tail height about to be learned, metres.
 */
export function plateUnknown(belief: Belief, shownM: number): Belief {
	const {rival, ...plain} = belief;
	const other = rival && {...rival.belief, rival: undefined};
	if (other && isImpossible(plain, shownM)) return levelForgotten(other);
	if (!other || isImpossible(other, shownM)) return levelForgotten(plain);
	return {...levelForgotten(plain), rival: {...rival, belief: levelForgotten(other)}};
}

function isImpossible(belief: Belief, shownM: number): boolean {
	if (!belief.isFromStop) return false;
	const tiltRad = -Math.asin(Math.max(-1, Math.min(1, shownM / belief.model.tailArmM)));
	return tiltRad - angleFor(belief, belief.mean) < leastStopRad;
}

function levelForgotten(belief: Belief): Belief {
	return {...belief, covariance: forgotten(belief.covariance, belief.layout.home, anywhereSd ** 2)};
}
