import type {Belief} from '../estimation/belief.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {consequencesOf} from './forecast.ts';
import {centsOf} from './landing.ts';

/** The claw turned while a support holds the plate from one side only, until the plate just comes off it. */
export interface ClawLift {
	/** String to listen to: the one that would move most. Counts from 0 = thinnest. */
	readonly index: number;
	/** What the support keeps the tail from: `rising` calls for a tighter claw, `falling` for a looser one. */
	readonly from: 'rising' | 'falling';
	/** Where its pitch stops being the support's, cents: in tune, or where it is kept now if that is farther on. It is enough that it stirs. */
	readonly toCents: number;
}

/**
 * Strings set on a support are right where it holds the plate. Let go with the
 * claw as it is, the plate drops or rises by a millimetre or three: wire slides
 * at each nut on the way down and does not slide back on the way up, so that
 * the strings come home each by a different few cents sharp. With the support
 * left in on the side that bears, the claw takes over its load, nothing
 * moves until the two are even, and then a string begins to.
 * Common practice, no source: a block under the bridge is let fall by the claw.
 *
 * @param advanceM What is believed to be wanted of the claw, metres, positive = tighter.
 * @returns Undefined while the bridge floats, or a string is not known well enough to be listened to.
 */
export function clawLift(belief: Belief, advanceM: Estimate): ClawLift | undefined {
	if (!belief.blocked) return undefined;
	if (belief.strings.some(({on, everRead, turnedUnread}) => on !== 'sounding' || !everRead || turnedUnread)) {
		return undefined;
	}

	// Which way it goes may be open; which string goes farthest is not.
	const ways = consequencesOf(belief, {kind: 'unsupport'}).moves.map(move =>
		Math.hypot(move?.mean ?? 0, move?.sd ?? 0),
	);
	const index = ways.indexOf(Math.max(...ways));
	// A plate that leans the other way rises or drops as soon as it is free to. Strings that go sharp by that come home as they were, so that is risked rather.
	const keptCents = centsOf(belief, belief.mean)[index] ?? 0;
	return advanceM.mean < -advanceM.sd
		? {index, from: 'falling', toCents: Math.min(0, keptCents)}
		: {index, from: 'rising', toCents: Math.max(0, keptCents)};
}

/** How unsure such a turn is, metres of advance: nobody counts, and what was wanted is what it tells. Judgement: two turns. */
export const clawLiftSdM = 0.003;

/** Where the string stands then, beside where it was to stop: hand, tuner, and that it has to stir to be noticed, cents. Judgement. */
export const clawLiftSdCents = 1;
