import type {Belief} from '../estimation/belief.ts';
import {dot, type Propagated, propagated} from '../estimation/gaussian.ts';
import {readingSdCents, sdOf} from '../estimation/hands.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {unmodelledCents} from './forecast.ts';
import {strictnessOf, type TuningGoal} from './goal.ts';
import {aimsOf, centsOf, landingOf} from './landing.ts';
import {type WithinReach, withinReach} from './reach.ts';
import {chooseTurns, type TurnChoice} from './turn-choice.ts';
import {type Candidate, worthOfTurns} from './turn-order.ts';

/** What to do next with pegs or fine tuners. `index` counts from 0 = thinnest. */
export type TuningStep =
	| {
			readonly kind: 'read';
			readonly index: number;
			readonly why: 'never-read' | 'uncertain' | 'teaches-most' | 'prove-result' | 'settling';
	  }
	| {
			readonly kind: 'turn';
			readonly index: number;
			/** Where the tuner should stand when letting go, cents; spread = how unsure the aim is. */
			readonly aim: Estimate;
			/** Where it should end when all are done, cents. */
			readonly landing: Estimate;
			/** The true aim is out of reach in one go: a step towards it. */
			readonly gentle: boolean;
			readonly why: 'far-off' | 'next-in-plan' | 'strength' | 'slack';
	  }
	| {
			readonly kind: 'done';
			readonly worst: {readonly index: number; readonly error: Estimate};
			readonly probability: number;
	  };

export interface TuningPlan {
	readonly step: TuningStep;
	/** Every string's pitch believed now, cents. */
	readonly now: readonly (Estimate | undefined)[];
	/** Strings that still need a turn, and the aim of each if it were next. */
	readonly todo: ReadonlySet<number>;
	/** Where each of those should stand when all is done, cents: near 0, a little off where that spares another turn. */
	readonly endCents: readonly number[];
	readonly aims: readonly (Estimate | undefined)[];
	/** `todo`, best next first as things stand. */
	readonly order: readonly number[];
}

/** What a plan stands on, whatever was read how often: the advice and the look ahead share it. */
function groundOf(belief: Belief, goal: TuningGoal): Ground {
	const key = `${goal.toleranceCents} ${goal.readingCents} ${goal.handCents}`;
	const known = grounds.get(belief);
	if (known?.key === key) return known.ground;
	const now = propagated(belief, x => centsOf(belief, x));
	const sounding = belief.strings.flatMap((status, index) => (status.on === 'off' ? [] : [index]));
	const choice = chooseTurns(belief, goal, now.estimates, sounding);
	const {estimates: places, loadings} = propagated(belief, x => aimsOf(belief, x, choice));
	const ground = {now, sounding, choice, places, loadings};
	grounds.set(belief, {key, ground});
	return ground;
}

interface Ground {
	readonly now: ReturnType<typeof propagated>;
	readonly sounding: readonly number[];
	readonly choice: TurnChoice;
	readonly places: readonly (Estimate | undefined)[];
	readonly loadings: readonly Float64Array[];
}

const grounds = new WeakMap<Belief, {readonly key: string; readonly ground: Ground}>();

/** Mean gain in ln of the landings' spreads that is worth a pluck. */
const worthwhileGain = 0.012;

/**
 * Decides the next step.
 *
 * @param readsSinceTouch How often each string was read since anything was last adjusted.
 */
export function planTuning(belief: Belief, wanted: TuningGoal, readsSinceTouch: readonly number[]): TuningPlan {
	// Tuner and hand as they have shown themselves so far.
	const goal = {
		...wanted,
		readingCents: readingSdCents(belief.hands),
		handCents: sdOf(belief.hands.stopping).mean,
	};
	const {now, sounding, choice, places, loadings} = groundOf(belief, goal);
	const unread = sounding.find(index => {
		const {everRead, turnedUnread, on} = belief.strings[index]!;
		return on === 'sounding' && (turnedUnread || !everRead);
	});
	const {todo, endCents} = choice;
	const reached = places.map((place, index) =>
		todo.has(index) ? withinReach(belief, index, place, now.estimates[index]) : undefined,
	);
	const aims = reached.map(each => each?.aim);
	const waiting = new Set(
		[...todo].filter(index => waitsForPulling(belief, index, reached[index]!.aim, now.estimates)),
	);
	const options = [...todo]
		.filter(index => !waiting.has(index) || waiting.size === todo.size)
		.map(index => optionFor(belief, goal, choice, index, {...reached[index]!, loadings: loadings[index]!}));
	options.sort((a, b) => b.sure - a.sure);
	let order = options.map(({index}) => index);
	const plan = (step: TuningStep): TuningPlan => ({step, now: now.estimates, todo, endCents, aims, order});
	const unsettled = nextToPull(belief, now.estimates, sounding);
	if (unsettled !== undefined) return plan({kind: 'read', index: unsettled, why: 'settling'});
	if (unread !== undefined) return plan({kind: 'read', index: unread, why: 'never-read'});
	if (options.length === 0) return plan(proofOrDone(belief, now.estimates, sounding, goal, readsSinceTouch));

	const lesson = bestLesson(belief, goal, options, readsSinceTouch, now);
	if (lesson !== undefined) return plan({kind: 'read', index: lesson, why: 'teaches-most'});
	const worths = worthOfTurns(belief, goal, options);
	const scores = new Map(
		options.map((option, at) => {
			const wasted = isThere(option, now.estimates[option.index], goal) ? 2 : 0;
			return [option.index, worths[at]! - (option.heldBy ? 1 : 0) - wasted];
		}),
	);
	options.sort((a, b) => scores.get(b.index)! - scores.get(a.index)!);
	order = options.map(({index}) => index);
	const best = options[0]!;
	// A string that is hardly off is worth a pluck before it is worth a turn.
	const place = now.estimates[best.index] ?? {mean: -1e3, sd: 0};
	const mayBeIn = probabilityWithin({mean: place.mean, sd: 1.5 * place.sd}, goal.toleranceCents);
	const isNear = mayBeIn > 0.02 || Math.abs(best.aim.mean - place.mean) < 2 * goal.toleranceCents;
	const enoughReads = mayBeIn > 0.1 ? strictnessOf(goal).mostRepeats - 1 : 1;
	if (isNear && readsSinceTouch[best.index]! < enoughReads)
		return plan({kind: 'read', index: best.index, why: 'uncertain'});
	const mayStay = nearestDoubt(options, now.estimates, goal, readsSinceTouch);
	if (mayStay !== undefined) return plan({kind: 'read', index: mayStay, why: 'uncertain'});
	return plan({
		kind: 'turn',
		index: best.index,
		aim: best.aim,
		landing: best.landing,
		gentle: best.heldBy !== undefined,
		why: best.heldBy ?? (best.sure > 0.5 ? 'next-in-plan' : 'far-off'),
	});
}

/** A string that stands where it must, as far as can be told yet: another turn would bring it to no better place and teach little. */
function isThere({aim}: Option, now: Estimate | undefined, {toleranceCents}: TuningGoal): boolean {
	if (now === undefined) return false;
	const wayCents = Math.abs(aim.mean - now.mean);
	return wayCents < toleranceCents / 4 || (aim.sd > toleranceCents && wayCents < aim.sd);
}

/** A string newer than this would go flat by more than a cent or two while the rest is done. */
const settledNewness = 0.3;
/** Pulling a string that hangs far below its pitch takes little out of it. */
const pullFromCents = -350;

/** A new string this near its aim waits until all are tight and it can be pulled, cents: pulling takes about as much out of it again. Judgement. */
const nearForNewCents = 60;

function waitsForPulling(
	{strings}: Belief,
	index: number,
	aim: Estimate,
	now: readonly (Estimate | undefined)[],
): boolean {
	const place = now[index];
	return (
		strings[index]!.newness > settledNewness &&
		strings[index]!.on === 'sounding' &&
		place !== undefined &&
		Math.abs(aim.mean - place.mean) < nearForNewCents
	);
}

/** A new string to be pulled by hand before anything is set finely: when all are tight, none turned unread. */
function nextToPull(
	belief: Belief,
	now: readonly (Estimate | undefined)[],
	sounding: readonly number[],
): number | undefined {
	const isReady = sounding.every(index => {
		const {on, turnedUnread, everRead} = belief.strings[index]!;
		return on === 'sounding' && !turnedUnread && (!everRead || (now[index]?.mean ?? -1e4) > pullFromCents);
	});
	return isReady ? sounding.find(index => belief.strings[index]!.newness > settledNewness) : undefined;
}

/** A string is plucked before it, or any other, is turned for it if it stands within tolerance with at least this chance. */
const mayStayChance = 0.3;

/** Of the strings to be turned, the one that may prove to need no turn once it is heard again: a pluck is cheaper, and moves nothing. */
function nearestDoubt(
	options: readonly Option[],
	now: readonly (Estimate | undefined)[],
	goal: TuningGoal,
	readsSinceTouch: readonly number[],
): number | undefined {
	const most = strictnessOf(goal).mostRepeats - 1;
	return options
		.filter(({index}) => readsSinceTouch[index]! < most)
		.map(({index}) => ({index, chance: probabilityWithin(now[index] ?? {mean: -1e3, sd: 0}, goal.toleranceCents)}))
		.filter(({chance}) => chance > mayStayChance)
		.sort((one, other) => other.chance - one.chance)[0]?.index;
}

interface Option extends Candidate, WithinReach {}

function optionFor(
	belief: Belief,
	goal: TuningGoal,
	choice: TurnChoice,
	index: number,
	{aim, heldBy, loadings}: WithinReach & {readonly loadings: Float64Array},
): Option {
	const target = aim.mean;
	// The aim is where it must stand to land right, so an error of the aim is one of the landing, stretched as the bridge moves on.
	const landsAt = (cents: number) => landingOf(belief, belief.mean, choice, {index, aimCents: cents})[index];
	const here = landsAt(target);
	const beside = landsAt(target + 1);
	const stretch = here === undefined || beside === undefined ? 1 : beside - here;
	const mean = here ?? choice.endCents[index]!;
	const sd = aim.sd * stretch;
	const landing = {mean, sd: Math.hypot(sd, unmodelledCents(belief, index, target - mean), goal.handCents)};
	return {
		index,
		toCents: target,
		aim,
		landing,
		loadings: loadings.map(each => each * stretch),
		heldBy,
		sure: probabilityWithin(landing, goal.toleranceCents),
	};
}

/** Of a reading's spread: what a dozen plucks leave of it. */
const leastPluckedShare = 0.3;

function proofOrDone(
	belief: Belief,
	now: readonly (Estimate | undefined)[],
	sounding: readonly number[],
	goal: TuningGoal,
	readsSinceTouch: readonly number[],
): TuningStep {
	const {proof, mostRepeats, edge, mostAtEdge, hearAgainCents} = strictnessOf(goal);
	const errors = sounding.map(index => {
		const {mean, sd} = now[index] ?? {mean: 0, sd: 1e3};
		// However often it is plucked, a tuner and a string are not surer than this; a new string goes on giving.
		const error = {mean, sd: Math.hypot(sd, goal.readingCents / 2, 2.5 * belief.strings[index]!.newness)};
		// What plucks alone can tell: a string near the edge of tolerance is plucked until they have, or it is turned.
		const plucked = {mean, sd: Math.max(sd, leastPluckedShare * goal.readingCents)};
		const isAtEdge = 1 - probabilityWithin(plucked, goal.toleranceCents) > edge;
		return {index, error, isAtEdge, probability: probabilityWithin(error, goal.toleranceCents)};
	});
	const doubtful = errors
		.filter(
			({index, error, isAtEdge, probability}) =>
				// Nothing is called done that was not heard after the last turn that could have moved it.
				(readsSinceTouch[index] === 0 && error.sd > hearAgainCents) ||
				(probability < proof && readsSinceTouch[index]! < mostRepeats) ||
				(isAtEdge && readsSinceTouch[index]! < mostAtEdge),
		)
		.reduce((a: (typeof errors)[number] | undefined, b) => (!a || b.probability < a.probability ? b : a), undefined);
	if (doubtful) return {kind: 'read', index: doubtful.index, why: 'prove-result'};
	// With every string off there is nothing to turn, and nothing is in tune either.
	const none = {index: 0, error: {mean: 0, sd: 1e3}, probability: 0};
	const worst = errors.reduce((a, b) => (b.probability < a.probability ? b : a), errors[0] ?? none);
	return {
		kind: 'done',
		worst: {index: worst.index, error: worst.error},
		probability: errors.reduce((product, {probability}) => product * probability, errors.length > 0 ? 1 : 0),
	};
}

/** The re-pluck that would sharpen the landings most, if one is worth the pluck. */
function bestLesson(
	belief: Belief,
	goal: TuningGoal,
	options: readonly Option[],
	readsSinceTouch: readonly number[],
	now: Propagated,
): number | undefined {
	const worth = (seen: Float64Array): number => {
		const total = dot(seen, seen) + goal.readingCents ** 2;
		let gain = 0;
		for (const {loadings, landing} of options) {
			const less = dot(loadings, seen) ** 2 / total;
			gain += 0.5 * Math.log(landing.sd ** 2 / Math.max(landing.sd ** 2 - less, goal.handCents ** 2));
		}

		return gain / options.length;
	};

	let best: {index: number; gain: number} | undefined;
	for (const [index, status] of belief.strings.entries()) {
		if (status.on !== 'sounding' || readsSinceTouch[index]! > 0) continue;
		const gain = worth(now.loadings[index]!);
		if (gain > worthwhileGain && (!best || gain > best.gain)) best = {index, gain};
	}

	return best?.index;
}
