import type {Belief} from '../estimation/belief.ts';
import {withClaw} from '../estimation/deeds.ts';
import {held, poseOf} from '../estimation/hold.ts';
import {nominal} from '../estimation/priors.ts';
import {lowestAt} from '../numeric/lowest-at.ts';
import type {TuningGoal} from './goal.ts';
import {centsAt} from './landing.ts';
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
	if (
		belief.blocked ||
		belief.strings.some(({on, everRead, turnedUnread}) => on !== 'sounding' || !everRead || turnedUnread)
	)
		return undefined;
	const now = poseOf(belief, belief.mean);
	const nobody = belief.strings.map(() => undefined);
	const after = (advanceM: number): readonly (number | undefined)[] => {
		const there = held(belief, now, nobody, withClaw(belief, now.x, advanceM));
		return centsAt(belief, there.x, there.angleRad);
	};
	const offBy = (cents: readonly (number | undefined)[]) =>
		cents.reduce<number>((sum, each) => sum + (each ?? slackCents) ** 2, 0);
	const advanceM = lowestAt(advance => offBy(after(advance)), {
		low: -mostAdvanceM,
		high: mostAdvanceM,
		tolerance: 1e-6,
	});
	const before = after(0);
	const best = after(advanceM);
	const beside = after(advanceM + stepM);
	const answers = best.map((cents, index) => Math.abs((beside[index] ?? slackCents) - (cents ?? slackCents)));
	const index = answers.indexOf(Math.max(...answers));
	return {
		index,
		toCents: best[index] ?? 0,
		advanceM,
		gain: 1 - Math.sqrt(offBy(best) / Math.max(1e-9, offBy(before))),
		outAfter: best.filter(each => Math.abs(each ?? slackCents) > surelyIn * toleranceCents).length,
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

/** Several strings at the edge together are as good as one beyond it. */
const evenOdds = 0.5;

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
	const out = now.filter(each => Math.abs(each?.mean ?? slackCents) > goal.toleranceCents).length;
	// Where the pegs would spoil as much as they mend, what is still out is the claw's.
	const isLeft = step.kind === 'done' && (out > 0 || step.probability < evenOdds);
	if (!isLeft && (step.kind !== 'turn' || todo.size < leastSpared)) return undefined;
	if (now.some(each => Math.abs(each?.mean ?? slackCents) > nearCents)) return undefined;
	const back = clawReturn(belief, goal.toleranceCents);
	if (!back) return undefined;
	// A bridge believed to lie on its stop answers to nothing, yet strings that went off together were brought there by it.
	if (back.gain < leastGain) return together(now);
	// How much of its way wire slid at each nut is the least known of all: from far off, every string is simply wanted back at pitch.
	const edgeCents = goal.toleranceCents / 2;
	if (back.gain > boldGain) return {...back, toCents: Math.max(-edgeCents, Math.min(edgeCents, back.toCents))};
	if (isLeft) return out > back.outAfter || back.gain > leastGain ? back : undefined;
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
