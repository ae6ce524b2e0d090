import type {Belief} from '../estimation/belief.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {ceilingCents} from './strength.ts';

/**
 * Lowest that a string is let down in one go, cents of its target. With the
 * plate far off, the place of a peg at the end may mean a string that hangs
 * loose now, and no tuner tells how loose: at half its pull it still sounds,
 * and the bridge, coming down meanwhile, brings the rest. Judgement.
 */
export const lowestCents = -600;
/** A string that stands below that already goes down by so much at most, cents. Judgement. */
const furtherCents = 300;

/** An aim as far as it can be followed in one go. */
export interface WithinReach {
	readonly aim: Estimate;
	/** What holds it back: the string's strength, or that it would hang loose. */
	readonly heldBy: 'strength' | 'slack' | undefined;
}

/**
 * An aim held within what one turn of a peg can do: not beyond the string's
 * strength (`ceilingCents`), not into slackness (`lowestCents`).
 *
 * @param aim Where the string's peg stands at the end, as cents now; undefined when that is slack now.
 * @param now Where it stands, cents, if it sounds.
 * @returns The aim in cents of target, and what held it back, if anything did.
 */
export function withinReach(
	belief: Belief,
	index: number,
	aim: Estimate | undefined,
	now: Estimate | undefined,
): WithinReach {
	const floor = now && now.mean < lowestCents ? now.mean - furtherCents : lowestCents;
	if (!aim || aim.mean < floor) return {aim: {mean: floor, sd: aim?.sd ?? unknownSdCents}, heldBy: 'slack'};
	const ceiling = ceilingCents(belief, index);
	return aim.mean > ceiling ? {aim: {mean: ceiling, sd: aim.sd}, heldBy: 'strength'} : {aim, heldBy: undefined};
}

/** Of an aim that cannot be told, cents: wide enough to weigh nothing beside one that can. */
const unknownSdCents = 1e3;
