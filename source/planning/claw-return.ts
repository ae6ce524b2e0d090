import type {Belief} from '../estimation/belief.ts';
import {withClaw} from '../estimation/deeds.ts';
import {held, poseOf} from '../estimation/hold.ts';
import {nominal} from '../estimation/priors.ts';
import {lowestAt} from '../numeric/lowest-at.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {strictnessOf, type TuningGoal} from './goal.ts';
import {centsAt} from './landing.ts';
import {missOf} from './turn-choice.ts';
import type {TuningPlan} from './tuning-plan.ts';

/** One turn of both claw screws, led by ear, in place of turning the pegs one after the other. */
export interface ClawReturn {
	/** String to listen to: the one that answers the claw most. Counts from 0 = thinnest. */
	readonly index: number;
	/** Where the tuner should stand when letting go, cents. */
	readonly toCents: number;
	/** About so far, metres of advance of both screws, positive = tighter. */
	readonly advanceM: number;
	/** Share of what the strings are off that it takes away, root of the mean square, 0 to 1. */
	readonly gain: number;
	/** Strings expected out of tolerance after it. */
	readonly outAfter: number;
}

/** Farther than this in one go a claw is not turned by ear, metres of advance. Judgement: two to three turns. */
const mostAdvanceM = 0.005;

/**
 * Strings that were set with the plate held where it is wanted go off together
 * when it is let go, each by its own answer to the bridge: bring the plate
 * back and all of them are back. The plate is brought back by the claw, until
 * the string that answers most stands where the others fit it best.
 *
 * @param toleranceCents Largest error of an open string, cents.
 * @returns Undefined while the bridge is held or a string is not known well enough to be counted.
 */
function clawReturn(belief: Belief, toleranceCents: number): ClawReturn | undefined {
	const answer = clawAnswer(belief);
	if (!answer) return undefined;
	const {after, advanceM} = answer(offBy);
	const best = after(advanceM);
	const {index} = mostMoved(best, after(advanceM + stepM));
	return {
		index,
		toCents: best[index] ?? 0,
		advanceM,
		gain: 1 - Math.sqrt(offBy(best) / Math.max(1e-9, offBy(after(0)))),
		outAfter: best.filter(each => Math.abs(each ?? slackCents) > surelyIn * toleranceCents).length,
	};
}

type Cents = readonly (number | undefined)[];

const offBy = (cents: Cents): number => cents.reduce<number>((sum, each) => sum + (each ?? slackCents) ** 2, 0);

/** What the claw makes of all strings, and the advance that makes something least; undefined while the bridge is held or a string is not known well enough. */
function clawAnswer(belief: Belief) {
	if (
		belief.blocked ||
		belief.strings.some(({on, everRead, turnedUnread}) => on !== 'sounding' || !everRead || turnedUnread)
	)
		return undefined;
	const now = poseOf(belief, belief.mean);
	const nobody = belief.strings.map(() => undefined);
	const after = (advanceM: number): Cents => {
		const there = held(belief, now, nobody, withClaw(belief, now.x, advanceM));
		return centsAt(belief, there.x, there.angleRad);
	};
	return (least: (cents: Cents) => number) => ({
		after,
		advanceM: lowestAt(advance => least(after(advance)), {low: -mostAdvanceM, high: mostAdvanceM, tolerance: 1e-6}),
	});
}

/** The string that goes farthest, and how far each goes as a share of it. */
function mostMoved(from: Cents, to: Cents): {readonly index: number; readonly shares: readonly number[]} {
	const ways = from.map((cents, index) => Math.abs((to[index] ?? slackCents) - (cents ?? slackCents)));
	const most = Math.max(...ways);
	return {index: ways.indexOf(most), shares: ways.map(way => way / Math.max(1e-9, most))};
}

/**
 * All strings near pitch, some at the edge or beyond: the turn of the claw
 * after which all are likeliest to be within tolerance, if that is worth it.
 *
 * @param chance That they are now.
 */
function clawTrim(belief: Belief, goal: TuningGoal, now: TuningPlan['now'], chance: number): ClawReturn | undefined {
	const answer = clawAnswer(belief);
	if (!answer) return undefined;
	const {toleranceCents, readingCents, handCents} = goal;
	const missed = (cents: Cents, index: number, sd: number) =>
		missOf({mean: cents[index] ?? slackCents, sd}, toleranceCents);
	const spreads = now.map(each => Math.hypot(each?.sd ?? 0, readingCents / 2));
	const {after, advanceM} = answer(cents => spreads.reduce((sum, sd, index) => sum + missed(cents, index, sd), 0));
	const best = after(advanceM);
	const {index, shares} = mostMoved(best, after(advanceM + stepM));
	// Hand and tuner stop the claw as surely as they stop a peg, and every string has its share of that.
	const chanceAfter = spreads.reduce((product, sd, at) => {
		const error = {mean: best[at] ?? slackCents, sd: Math.hypot(sd, shares[at]! * Math.hypot(handCents, readingCents))};
		return product * probabilityWithin(error, toleranceCents);
	}, 1);
	if (strictnessOf(goal).costOfMiss * (chanceAfter - chance) < leastSpared) return undefined;
	return {
		index,
		toCents: best[index] ?? 0,
		advanceM,
		gain: 1 - Math.sqrt(offBy(best) / Math.max(1e-9, offBy(after(0)))),
		outAfter: best.filter(each => Math.abs(each ?? slackCents) > toleranceCents).length,
	};
}

/** How unsure such a turn is, metres of advance: nobody counts while listening. Judgement. */
export function clawByEarSdM(advanceM: number): number {
	return 0.0002 + 0.5 * Math.abs(advanceM);
}

/** Share of the tolerance that leaves room for tuner and hand. Judgement. */
const surelyIn = 0.8;
/** Advance over which answers are compared, metres: a thousandth of the springs' usual arm. */
const stepM = nominal.springArmM / 1000;
/** What a string that hangs loose counts as, cents. */
const slackCents = -1200;

/** Turns of the claw from one support, freeing it counted: what is off after that is not the plate's. Judgement. */
export const mostLedTurns = 2;

/** Turns of the pegs that one of the claw must spare: fewer, and the pegs do it as well. */
const leastSpared = 2;
/** A turn of the claw that takes away this share is worth it whatever else. Judgement. */
const boldGain = 0.7;
/** Where the pegs are at their end, this share is worth it too: after it they have room again. Judgement. */
const leastGain = 0.25;
/** Only strings about at pitch show where the plate was when they were set, cents. Judgement. */
const nearCents = 600;

/** The claw by ear where it spares turns of the pegs; undefined where the pegs do it as well. */
export function clawByEar(
	belief: Belief,
	goal: TuningGoal,
	{step, todo, now}: Pick<TuningPlan, 'step' | 'todo' | 'now'>,
): ClawReturn | undefined {
	if (now.some(each => Math.abs(each?.mean ?? slackCents) > nearCents)) return undefined;
	// Where the pegs would spoil as much as they mend, what is still out, or may be, is the claw's.
	if (step.kind === 'done') return clawTrim(belief, goal, now, step.probability);
	if (step.kind !== 'turn' || todo.size < leastSpared) return undefined;
	const back = clawReturn(belief, goal.toleranceCents);
	if (!back) return undefined;
	// A bridge believed to lie on its stop answers to nothing, yet strings that went off together were brought there by it.
	if (back.gain < leastGain) return together(now);
	// How much of its way wire slid at each nut is the least known of all: from far off, every string is simply wanted back at pitch.
	const edgeCents = goal.toleranceCents / 2;
	if (back.gain > boldGain) return {...back, toCents: Math.max(-edgeCents, Math.min(edgeCents, back.toCents))};
	return todo.size - back.outAfter >= leastSpared && back.gain > leastGain ? back : undefined;
}

/** Strings this far off, all the same way, went there with the plate, cents. Judgement. */
const togetherCents = 10;
/** Advance for a cent of the string that answers most, metres: bridges differ threefold. Measured on the practice guitar, some ten guitars. */
const advancePerCentM = 0.000012;

function together(now: TuningPlan['now']): ClawReturn | undefined {
	const cents = now.map(each => each?.mean ?? 0);
	const [least, most] = [Math.min(...cents), Math.max(...cents)];
	if (least < togetherCents && most > -togetherCents) return undefined;
	const index = cents.indexOf(least > 0 ? most : least);
	return {index, toCents: 0, advanceM: -advancePerCentM * cents[index]!, gain: 1, outAfter: 0};
}
