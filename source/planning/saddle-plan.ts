import {probit} from 'simple-statistics';
import {errorAfterMove, type SaddleBelief, travelFor} from '../estimation/saddle-belief.ts';
import type {SaddleCause} from '../estimation/saddle-causes.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {type Reach, reachOf, type SaddleTravel} from './saddle-travel.ts';

/** What one string's fretted 12th should come to, and when it is near enough. */
export interface SaddleGoal {
	/** Wanted fretted 12th minus harmonic, cents; 0 unless the player or bench wants otherwise. */
	readonly wishCents: number;
	/** Largest departure from the wish, cents, > 0. */
	readonly toleranceCents: number;
}

/** What to do about one saddle, and what to expect of it. */
export interface SaddlePlan {
	readonly step: SaddleStep;
	/** Departure from the wish now, cents, positive = sharp = string too short. */
	readonly errorCents: Estimate;
	/** Travel that would bring the wish, mm, positive = back, whether or not it can be reached. */
	readonly travelMm: Estimate;
	readonly reach: Reach;
	/** Departure from the wish after that travel, or after as much of it as can be reached, cents. */
	readonly expectedCents: Estimate;
	/** Chance of standing within the tolerance as it is, and after the move. */
	readonly chanceWithin: {readonly now: number; readonly after: number};
	/** A story likelier than that all went as expected, and how to tell; named even when the numbers are sure enough to go on. */
	readonly suspicion?: {readonly cause: SaddleCause; readonly chance: number; readonly check: SaddleCheck};
	/** Smallest departure that this tuner and these plucks can tell from none (two standard deviations), cents. */
	readonly resolvableCents: number;
}

export type SaddleStep =
	/** Read both ways at this place first: so many plucks each. */
	| {readonly kind: 'read'; readonly plucks: number; readonly why: 'never-read' | 'too-close-to-call'}
	/** The readings contradict the story: do this check before believing any of them. */
	| {readonly kind: 'check'; readonly cause: SaddleCause; readonly chance: number; readonly check: SaddleCheck}
	| {readonly kind: 'leave'; readonly why: 'within-tolerance' | 'below-what-can-be-told'}
	| {readonly kind: 'measure-place'}
	| {readonly kind: 'move'; readonly travelMm: number}
	/** The end of the travel is the best that can be done here; 0 when the saddle stands there. */
	| {readonly kind: 'out-of-travel'; readonly travelMm: number};

/** How to tell one story from another. */
export const saddleChecks = ['press-lightly', 'measure-saddle', 'harmonic-again'] as const;
export type SaddleCheck = (typeof saddleChecks)[number];

/**
 * What a further slackening must save: it is worth it when it lowers the
 * chance of ending out of tolerance by more than this. A slackening, a saddle
 * set and a bring-up are three adjustments, and a string left out of tune
 * counts as 14 of them (`strictnessOf`): by that 0.2. Less, for six strings
 * share one tolerance. Judgement.
 */
const worthOfMove = 0.12;
/** The same for one more pluck of each kind. */
const worthOfPluck = 0.002;
const mostMorePlucks = 4;
/** Plucks at one place beyond which averaging more is no use: what tuner and finger do wrong alike stays. */
const mostPlucks = 8;

export function planSaddle(belief: SaddleBelief, goal: SaddleGoal, travel: SaddleTravel): SaddlePlan {
	const {wishCents, toleranceCents} = goal;
	const errorCents = offWish(belief.errorCents, wishCents);
	const travelMm = travelFor(belief, wishCents);
	const reach = reachOf(travel, belief.positionMm, travelMm.mean);
	const possibleMm = reach.kind === 'out' ? reach.travelMm : travelMm.mean;
	const expectedCents = offWish(errorAfterMove(belief, possibleMm), wishCents);
	const chanceWithin = {
		now: probabilityWithin(errorCents, toleranceCents),
		after: probabilityWithin(expectedCents, toleranceCents),
	};
	const suspicion = suspicionOf(belief);
	const plan = {
		errorCents,
		travelMm,
		reach,
		expectedCents,
		chanceWithin,
		...(suspicion ? {suspicion} : {}),
		resolvableCents: resolvable(belief),
	};
	return {...plan, step: stepOf(belief, goal, plan, possibleMm)};
}

function stepOf(
	belief: SaddleBelief,
	{toleranceCents}: SaddleGoal,
	plan: Omit<SaddlePlan, 'step'>,
	possibleMm: number,
): SaddleStep {
	if (!belief.isRead) return {kind: 'read', plucks: 2, why: 'never-read'};
	if (plan.suspicion && !isClear(belief, toleranceCents)) return {kind: 'check', ...plan.suspicion};
	const plucks = morePlucks(belief, plan, toleranceCents);
	if (plucks > 0) return {kind: 'read', plucks, why: 'too-close-to-call'};
	const {now, after} = plan.chanceWithin;
	const isTold = Math.abs(plan.errorCents.mean) > plan.resolvableCents;
	if (after - now <= worthOfMove || !isTold) {
		const isWithin = Math.abs(plan.errorCents.mean) <= toleranceCents;
		if (isWithin) return {kind: 'leave', why: 'within-tolerance'};
		if (plan.reach.kind === 'out') return {kind: 'out-of-travel', travelMm: worthGoing(belief, plan, possibleMm)};
		return {kind: 'leave', why: 'below-what-can-be-told'};
	}
	if (plan.reach.kind === 'measure-first') return {kind: 'measure-place'};
	return plan.reach.kind === 'out'
		? {kind: 'out-of-travel', travelMm: possibleMm}
		: {kind: 'move', travelMm: plan.travelMm.mean};
}

function suspicionOf({causes}: SaddleBelief): SaddlePlan['suspicion'] {
	const [likeliest, next] = causes;
	if (!likeliest || likeliest.cause === 'as-expected') return undefined;
	const rival = next && next.probability > 0.1 ? next.cause : undefined;
	return {cause: likeliest.cause, chance: likeliest.probability, check: checkFor(likeliest.cause, rival)};
}

/** Whatever happened, the error is known well enough again and the newest plucks agree with it. */
function isClear({errorCents, newestCents, noise}: SaddleBelief, toleranceCents: number): boolean {
	if (errorCents.sd > 0.45 * Math.max(2, toleranceCents) || newestCents === undefined) return false;
	const pluckSd = Math.sqrt(2 * noise.tunerCents ** 2 + noise.pressCents ** 2);
	return Math.abs(newestCents - errorCents.mean) < 2.5 * Math.hypot(pluckSd, errorCents.sd);
}

/** Going to the end of the travel although it does not bring the tolerance: only when it clearly lowers the error. */
function worthGoing(belief: SaddleBelief, plan: Omit<SaddlePlan, 'step'>, possibleMm: number): number {
	const gainCents = Math.abs(plan.errorCents.mean) - Math.abs(plan.expectedCents.mean);
	return gainCents > resolvable(belief) ? possibleMm : 0;
}

/**
 * The check that costs least among those that tell the two likeliest stories
 * apart: a lighter press shows a bend, the harmonic read again shows a slip,
 * only a ruler shows where the saddle stands.
 */
export function checkFor(likeliest: SaddleCause, next: SaddleCause | undefined): SaddleCheck {
	if (likeliest === 'bent' || (next === 'bent' && likeliest !== 'slipped')) return 'press-lightly';
	if (likeliest === 'slipped') return 'harmonic-again';
	return 'measure-saddle';
}

/** Two standard deviations of the mean difference that the plucks at this place give, cents. */
function resolvable({noise, plucks}: SaddleBelief): number {
	const harmonic = noise.tunerCents ** 2 / Math.max(1, plucks.harmonic.count);
	const fretted = (noise.tunerCents ** 2 + noise.pressCents ** 2) / Math.max(1, plucks.fretted.count);
	return 2 * Math.sqrt(harmonic + fretted);
}

/**
 * How many more plucks of each kind, averaged, are worth their time before
 * deciding: the number with the least expected loss, where losing is to end
 * out of tolerance, to have slackened a string, and to have plucked.
 */
function morePlucks(belief: SaddleBelief, plan: Omit<SaddlePlan, 'step'>, toleranceCents: number): number {
	const {noise} = belief;
	const pairVariance = 2 * noise.tunerCents ** 2 + noise.pressCents ** 2;
	const {mean, sd} = plan.errorCents;
	const setVariance = Math.max(0, plan.expectedCents.sd ** 2 - sd ** 2);
	const leftCents = plan.reach.kind === 'out' ? plan.expectedCents.mean : 0;
	const lossKnowing = (errorMean: number, errorVariance: number): number => {
		const stay = 1 - probabilityWithin({mean: errorMean, sd: Math.sqrt(errorVariance)}, toleranceCents);
		const moved = {mean: leftCents, sd: Math.sqrt(errorVariance + setVariance)};
		return Math.min(stay, worthOfMove + 1 - probabilityWithin(moved, toleranceCents));
	};
	let best = {plucks: 0, loss: lossKnowing(mean, sd ** 2)};
	const most = Math.min(mostMorePlucks, mostPlucks - belief.plucks.fretted.count);
	// What all plucks do alike stays, however many they are.
	const alike = Math.min(noise.alikeCents ** 2, sd ** 2 / 2);
	for (let plucks = 1; plucks <= most; plucks++) {
		const variance = alike + 1 / (1 / (sd ** 2 - alike) + plucks / pairVariance);
		const spread = Math.sqrt(Math.max(0, sd ** 2 - variance));
		let loss = plucks * worthOfPluck;
		for (const node of evenNodes) loss += lossKnowing(mean + node * spread, variance) / evenNodes.length;
		if (loss < best.loss - 1e-12) best = {plucks, loss};
	}
	return best.plucks;
}

/** Values of a standard normal at even steps of probability: an average over them is an expectation. */
const evenNodes = Array.from({length: 19}, (_, index) => probit((index + 1) / 20));

function offWish({mean, sd}: Estimate, wishCents: number): Estimate {
	return {mean: mean - wishCents, sd};
}
