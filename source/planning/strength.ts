import {angleFor, type Belief, bridgeOf, wireFor} from '../estimation/belief.ts';
import {centsPerLogTension, travelAt} from '../physics/bridge.ts';

/**
 * Largest share of the minimum breaking load that an aim may ask for. Music
 * wire stays elastic up to 65 to 75 % of its strength in tension (Shigley, 9th ed.,
 * table 10-5); beyond that a string stretches for good before it breaks.
 */
export const safeShare = {plain: 0.68, wound: 0.6} as const;

/**
 * Highest pitch, cents of its target, that a string may be asked for with
 * the bridge where it is. Two spreads of its mass are kept in hand.
 */
export function ceilingCents(belief: Belief, index: number): number {
	const string = belief.model.strings[index]!;
	const limitN = string.breakingLoadN * (string.wound ? safeShare.wound : safeShare.plain);
	const wire = wireFor(belief, belief.mean, index);
	const bridge = bridgeOf(belief, belief.mean);
	const lengthM = wire.speakingLengthM + travelAt(bridge, index, angleFor(belief, belief.mean));
	const massSd = Math.sqrt(belief.covariance.get(belief.layout.mass(index), belief.layout.mass(index)));
	const massPerLength = wire.massPerLengthKgPerM / (1 + limitN / wire.axialStiffnessN);
	const frequencyHz = Math.sqrt(limitN / massPerLength) / (2 * lengthM);
	return 1200 * Math.log2(frequencyHz / string.targetHz) - 2 * centsPerLogTension * massSd;
}
