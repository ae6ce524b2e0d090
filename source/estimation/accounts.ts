import type {Belief} from './belief.ts';
import {measured} from './gaussian.ts';
import type {Layout} from './layout.ts';

/** One way the bridge may be, of several held beside each other. */
export interface Account {
	readonly belief: Belief;
	/** Share of belief, 0 to 1. */
	readonly weight: number;
}

/** Means of the parts of a spread, in spreads of the whole, and the spread of each part. */
const parts = {places: [-1, 0, 1], sd: 0.6} as const;

/** The unknowns that decide when a plate leaves its stop and how far it goes then. */
const splitUnknowns = ({rate, stop}: Layout): readonly number[] => [rate, stop];

/** Spread of `rate` from which a bridge counts as never seen to answer: two thirds of the prior's. Judgement. */
const unseenRateSd = 0.3;

/**
 * With every string slack the plate lies on its stop, and what it does when
 * it comes off depends on springs and stop in a way that no straight line
 * follows. There one belief learns the wrong thing and grows sure of it, so
 * the wide spreads of those two are taken apart into several accounts, each
 * narrow enough for a straight line (a sum of Gaussians: D. L. Alspach,
 * H. W. Sorenson, IEEE Trans. Autom. Control 17(4), 1972; from memory).
 * Readings weigh them. Together they say what the one belief said.
 */
export function takenApart(belief: Belief): Belief {
	const {rival: _, ...plain} = belief;
	let all: readonly Account[] = [{belief: plain, weight: 1}];
	for (const at of splitUnknowns(belief.layout)) all = all.flatMap(account => splitAlong(account, at));
	return joined(all);
}

/** Whether it is time for that: nothing sounds, and how the bridge answers was never seen. */
export function isBareUnseen({strings, others, covariance, layout}: Belief): boolean {
	return (
		!others &&
		strings.every(({on}) => on !== 'sounding') &&
		covariance.get(layout.rate, layout.rate) > unseenRateSd ** 2
	);
}

function splitAlong({belief, weight}: Account, at: number): readonly Account[] {
	const left = 1 - parts.sd ** 2;
	const variance = belief.covariance.get(at, at);
	const gradient = new Float64Array(belief.layout.size);
	gradient[at] = 1;
	const shares = parts.places.map(place => Math.exp((-0.5 * place * place) / left));
	const total = shares.reduce((sum, share) => sum + share, 0);
	return parts.places.map((place, which) => ({
		// As if it had been measured just so exactly that this mean and this spread are left.
		belief: {
			...belief,
			...measured(belief, {
				gradient,
				innovation: (place * Math.sqrt(variance)) / left,
				variance: (variance * parts.sd ** 2) / left,
			}),
		},
		weight: (weight * shares[which]!) / total,
	}));
}

/** All accounts of a belief, its own first. */
export function accountsOf(belief: Belief): readonly Account[] {
	const {others = [], ...leader} = belief;
	return [{belief: leader, weight: 1 - others.reduce((sum, {weight}) => sum + weight, 0)}, ...others];
}

/** An account so much less likely than the likeliest is dropped. Judgement. */
const leastShare = 0.01;
/** Two accounts whose means differ by less than this share of the spread have come to be one. Judgement. */
const sameShare = 0.7;

/** So many are kept once there are readings to tell them apart: each costs as much time as one belief. Judgement. */
export const mostAccounts = 6;

/** The likeliest with the others beside it; weights need not add up to 1. The unlikely and those that have become alike are left out. */
export function joined(all: readonly Account[], most = Number.POSITIVE_INFINITY): Belief {
	const [first, ...rest] = [...all].sort((one, other) => other.weight - one.weight);
	const kept = [{...first!}];
	for (const {belief, weight} of rest) {
		if (weight < leastShare * kept[0]!.weight || kept.length >= most) break;
		const like = kept.find(each => areAlike(each.belief, belief));
		if (like) like.weight += weight;
		else kept.push({belief, weight});
	}

	const total = kept.reduce((sum, {weight}) => sum + weight, 0);
	const [leader, ...others] = kept;
	if (others.length === 0) return leader!.belief;
	return {...leader!.belief, others: others.map(({belief, weight}) => ({belief, weight: weight / total}))};
}

function areAlike(one: Belief, other: Belief): boolean {
	return splitUnknowns(one.layout).every(
		at => Math.abs(one.mean[at]! - other.mean[at]!) < sameShare * Math.sqrt(one.covariance.get(at, at)),
	);
}
