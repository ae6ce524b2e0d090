import {type Belief, type StringStatus, wireFor} from './belief.ts';
import {noise} from './priors.ts';

/** One string's status changed, the rest as it is. */
export function withStatus(belief: Belief, index: number, change: Partial<StringStatus>): Belief {
	return {...belief, strings: belief.strings.map((status, at) => (at === index ? {...status, ...change} : status))};
}

/** Pull that one cent is worth near pitch: tension goes with the square of pitch. */
export const pullPerCent = Math.LN2 / 600;

/**
 * One string less surely where it was.
 *
 * @param sdCents Added to its spread, cents.
 * @param shiftCents Moved by so much on the mean, cents, negative = flat.
 */
export function withAddedNoise(belief: Belief, index: number, sdCents: number, shiftCents = 0): Belief {
	const at = belief.layout.pull(index);
	const covariance = belief.covariance.clone();
	covariance.set(at, at, covariance.get(at, at) + (sdCents * pullPerCent) ** 2);
	const mean = Float64Array.from(belief.mean);
	mean[at]! += shiftCents * pullPerCent;
	return {...belief, mean, covariance};
}

/** Any touch lets strings settle a little; new ones give more, and always flat: half of what a pluck of their own takes out (see `noise.newStringCents`). */
export function touched(belief: Belief, except: number | undefined): Belief {
	return belief.strings.reduce(
		(all, status, index) =>
			status.on !== 'sounding' || index === except ? all : settling(all, index, 0.5, noise.touchCents),
		belief,
	);
}

/**
 * A string gives by a share of what is usual for one as new as this: flat, by
 * an unsure amount (seven tenths of it on the mean and as spread), and is a
 * little less new after it, 4 % at a pluck of its own. Judgement.
 *
 * @param share 1 for a pluck of its own, less for a touch of another.
 * @param elseCents Spread of whatever else moves it, cents.
 */
export function settling(belief: Belief, index: number, share: number, elseCents = 0): Belief {
	const {newness} = belief.strings[index]!;
	const giveCents = share * noise.newStringCents * newness;
	const settled = withAddedNoise(belief, index, Math.hypot(0.7 * giveCents, elseCents), -0.7 * giveCents);
	return newness === 0 ? settled : withStatus(settled, index, {newness: newness * (1 - 0.04 * share)});
}

/**
 * Pulled all along its length: most of a new string's give is out, and friction
 * holds from the other side. An old one gives 0.7 cents or so, and on a support
 * the others move by 0.2 only: judgement.
 */
export function pulled(belief: Belief, index: number): Belief {
	const {newness} = belief.strings[index]!;
	const giveCents = 0.7 + noise.pullCents * newness;
	const given = withAddedNoise(belief, index, 0.7 * giveCents, -giveCents);
	const strings = given.strings.map((status, at) => ({...status, play: at === index ? 0 : status.play}));
	// The plate dips and comes back, and wire slides at every nut.
	const shaken = given.strings.reduce(
		(all, {on}, at) =>
			at === index || on !== 'sounding' ? all : withAddedNoise(all, at, belief.blocked ? 0.2 : noise.dipCents),
		given,
	);
	return withStatus({...touched(shaken, index), strings, ...(belief.blocked ? {} : {lean: -1})}, index, {
		newness: newness * pullLeaves,
	});
}

/** Share of a new string's give that is left after it was pulled. Judgement. */
const pullLeaves = 0.2;

/** Newness of a string that hung slack, at a strain of one: its windings seat again, and the same wire given is more cents on a stiff string. Judgement. */
const reseatingStrain = 0.000375;

/** How new a string is that hung slack and was not new: it seats again in its windings, 0 to 1. */
export function reseatingNewness(belief: Belief, index: number): number {
	return Math.min(1, reseatingStrain / wireFor(belief, belief.mean, index).targetStrain);
}

/** Plucks of its own, or as much in touches of others, that a string meets before a tuning is proved. Judgement. */
const plucksAhead = 5;

/** What a string is expected to go flat by until a tuning is proved, cents. */
export function giveAheadCents({strings}: Belief, index: number): number {
	return plucksAhead * 0.7 * noise.newStringCents * strings[index]!.newness;
}
