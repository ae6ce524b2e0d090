import {Matrix, solve} from 'ml-matrix';
import type {Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {heldCents, holdCents, only, poseOf} from '../estimation/hold.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {provableCents, strictnessOf, type TuningGoal} from './goal.ts';
import {aimsOf, allAtPitch, centsAt, centsOf} from './landing.ts';

/** Which strings to turn, and where each should stand when all is done. */
export interface TurnChoice {
	readonly todo: ReadonlySet<number>;
	/** Cents at the end, by string; 0 for those not turned. */
	readonly endCents: readonly number[];
}

/** End places tried, as shares of the tolerance: a string that is turned anyway may stand a little off to help the rest. */
const endShares = [-0.45, -0.3, -0.15, 0, 0.15, 0.3, 0.45] as const;

/** Share of the tolerance within which, spread and all, a string stands right. Judgement. */
const homeShare = 0.35;

/** A chance of being within tolerance at which nobody would leave a string. Judgement. */
const nobodyLeaves = 0.2;

/** Strings within so many tolerances of pitch may be left where they are. Judgement. */
const nearTolerances = 6;

/**
 * The fewest turns that bring all within tolerance: every set of strings is
 * weighed by its turns and by the chance that a string is missed. Strings
 * that are turned move the others, so their end places are chosen for all.
 */
export function chooseTurns(
	belief: Belief,
	goal: TuningGoal,
	now: readonly (Estimate | undefined)[],
	sounding: readonly number[],
): TurnChoice {
	// A string that stands where the others will bring it home need not be turned, however far off it is now.
	const places = aimsOf(belief, belief.mean, allAtPitch(belief, new Set(sounding)));
	// With all of them near, what turning every one would make of the bridge says nothing of those that are left alone.
	const areNear = sounding.every(index => Math.abs(now[index]?.mean ?? 1e4) <= nearTolerances * goal.toleranceCents);
	const far = sounding.filter(index => {
		if (areNear) return belief.strings[index]!.on === 'slack';
		const way = (places[index] ?? 1e4) - (now[index]?.mean ?? -1e4);
		return Math.abs(way) > nearTolerances * goal.toleranceCents || belief.strings[index]!.on === 'slack';
	});
	const atEnd = holdCents(
		belief,
		belief.mean,
		belief.strings.map((_, index) => (far.includes(index) ? 0 : undefined)),
	).x;
	const job: Job = {
		goal,
		costOfMiss: strictnessOf(goal).costOfMiss,
		now,
		sounding,
		far,
		home: areNear
			? sounding.filter(index => Math.abs(now[index]!.mean) + now[index]!.sd < homeShare * goal.toleranceCents)
			: [],
		x: atEnd,
		restCents: centsOf(belief, atEnd),
		afterTurns: chosen =>
			heldCents(
				belief,
				poseOf(belief, belief.mean),
				belief.strings.map((_, index) => (chosen.includes(index) ? 0 : undefined)),
			),
		doubt: far.length > 0 ? 0 : doubtOfBridge(belief, sounding),
	};
	const choice = cheapestTurns(belief, job);
	// Friction can make the bridge's answer so unsure that no set seems worth its turns; what is surely out is turned all the same, as the likeliest answer has it.
	const leastToleranceCents = provableCents(goal);
	const isOut = (index: number) =>
		probabilityWithin(now[index] ?? {mean: 0, sd: 1e3}, leastToleranceCents) < nobodyLeaves;
	if (choice.todo.size > 0 || job.doubt === 0 || !sounding.some(isOut)) return choice;
	return cheapestTurns(belief, {...job, doubt: 0});
}

/** What is weighed. */
interface Job {
	readonly goal: TuningGoal;
	/** See `Strictness`. */
	readonly costOfMiss: number;
	/** Of every string, should it not be turned; only the spread is used. */
	readonly now: readonly (Estimate | undefined)[];
	/** Strings that are on. */
	readonly sounding: readonly number[];
	/** Those of them that are turned whatever comes. */
	readonly far: readonly number[];
	/** Those that surely stand right: not turned for the sake of another, for then the other is. None when absent. */
	readonly home?: readonly number[];
	/** The unknowns, and cents of every string, once the far ones are at pitch. */
	readonly x: Float64Array;
	readonly restCents: readonly (number | undefined)[];
	/** Cents of every string once these are at pitch, with what the slopes leave out: a peg that comes down leaves the plate held the other way, and all others sharp. */
	readonly afterTurns?: (chosen: readonly number[]) => readonly (number | undefined)[];
	/** How unsure the bridge's answer is, as a share of it; 0 where turns are so large that all are alike. */
	readonly doubt: number;
	/** By string, how unsure its end place is besides, should it be turned, cents; 0 when absent. */
	readonly landingSd?: readonly number[];
}

/** Of all sets with the far strings in them, the one that costs least in turns and misses. */
export function cheapestTurns(belief: Belief, job: Job): TurnChoice {
	const {sounding, far, now} = job;
	const optional = sounding.filter(index => !far.includes(index) && !job.home?.includes(index));
	const newness = sounding.map(index => belief.strings[index]!.newness);
	const slopes = slopesAt(belief, job.x, sounding);
	let best: (TurnChoice & {cost: number}) | undefined;
	for (let bits = 0; bits < 2 ** optional.length; bits++) {
		const chosen = [...far, ...optional.filter((_, at) => (bits >> at) & 1)];
		// No set of more turns can win once the turns alone cost as much.
		if (best && chosen.length >= best.cost) continue;
		const option = weigh({...job, newness, slopes}, chosen);
		if (!best || option.cost < best.cost) best = option;
	}

	return best ?? {todo: new Set(), endCents: now.map(() => 0)};
}

interface Situation extends Job {
	/** In the order of `sounding`: a new string goes on giving. */
	readonly newness: readonly number[];
	/** Row = string moved, column = string turned, cents per unit of pull, in the order of `sounding`. */
	readonly slopes: Matrix;
}

/** What a string just fitted may still give until all is done, one spread, cents; as `proofOrDone` has it. Judgement. */
const newGiveCents = 2.5;

function weigh(situation: Situation, chosen: readonly number[]): TurnChoice & {cost: number} {
	const {goal, costOfMiss, now, sounding, newness, restCents, slopes, doubt, landingSd, afterTurns} = situation;
	const turnedAt = chosen.map(index => sounding.indexOf(index));
	const leftAt = sounding.map((_, at) => at).filter(at => !turnedAt.includes(at));
	const start = sounding.map(index => restCents[index] ?? 0);
	const turnedSd = Math.hypot(goal.handCents, goal.readingCents);
	const inverse =
		turnedAt.length > 0 ? solve(slopes.selection(turnedAt, turnedAt), Matrix.eye(turnedAt.length)) : undefined;
	// Untouched strings follow the turned ones: c_left = c + G_lt G_tt⁻¹ (end − c_turned).
	const follow =
		turnedAt.length > 0 && leftAt.length > 0 ? slopes.selection(leftAt, turnedAt).mmul(inverse!) : undefined;
	const after = follow ? afterTurns?.(chosen) : undefined;
	// By string left alone: what the turns do to it besides.
	const beside = leftAt.map((at, row) => {
		const cents = after?.[sounding[at]!];
		if (cents === undefined) return 0;
		const linear = turnedAt.reduce(
			(sum, turned, column) => sum - follow!.get(row, column) * start[turned]!,
			start[at]!,
		);
		return cents - linear;
	});
	const cost = (ends: readonly number[]): number => {
		let misses = 0;
		const ways = ends.map((end, column) => end - start[turnedAt[column]!]!);
		for (const [row, end] of ends.entries()) {
			// What the others bring, or take, is as unsure as the bridge.
			let pull = 0;
			if (doubt > 0) for (const [column, way] of ways.entries()) pull += inverse!.get(row, column) * way;
			const byOthers = doubt > 0 ? ways[row]! - slopes.get(turnedAt[row]!, turnedAt[row]!) * pull : 0;
			const sd = Math.hypot(turnedSd, doubt * byOthers, landingSd?.[chosen[row]!] ?? 0);
			misses += missOf({mean: end, sd}, goal.toleranceCents);
		}
		for (const [row, at] of leftAt.entries()) {
			let mean = start[at]! + beside[row]!;
			for (const [column, way] of ways.entries()) mean += (follow?.get(row, column) ?? 0) * way;
			// However often it is plucked, a tuner and a string are not surer than half a reading.
			const known = Math.max(now[sounding[at]!]?.sd ?? 100, goal.readingCents / 2);
			const sd = Math.hypot(known, doubt * (mean - start[at]!), newGiveCents * newness[at]!);
			misses += missOf({mean, sd}, goal.toleranceCents);
		}

		return chosen.length + costOfMiss * misses;
	};

	const ends = chosen.map(() => 0);
	let least = cost(ends);
	for (let round = 0; round < 2 && leftAt.length > 0; round++) {
		for (const column of ends.keys()) {
			for (const share of endShares) {
				const before = ends[column]!;
				ends[column] = share * goal.toleranceCents;
				const tried = cost(ends);
				if (tried < least - 1e-9) least = tried;
				else ends[column] = before;
			}
		}
	}

	const endCents = now.map((_, index) => (chosen.includes(index) ? ends[chosen.indexOf(index)]! : 0));
	return {todo: new Set(chosen), endCents, cost: least};
}

/** Chance of being out of tolerance, and more the further out: two tolerances off is twice as bad as one. */
export function missOf(error: Estimate, toleranceCents: number): number {
	return 1 - probabilityWithin(error, toleranceCents) + Math.max(0, Math.abs(error.mean) / toleranceCents - 1);
}

/** How unsure the answer of the bridge to a turn is, as a share of it: root mean square over the others and over the strings turned. */
function doubtOfBridge(belief: Belief, sounding: readonly number[]): number {
	const turnable = sounding.filter(index => belief.strings[index]!.on === 'sounding');
	const {estimates} = propagated(belief, x => {
		const now = poseOf(belief, x);
		const before = centsAt(belief, now.x, now.angleRad);
		return turnable.flatMap(index => {
			const after = heldCents(belief, now, only(belief, index, (before[index] ?? 0) + 10));
			return after.map((cents, at) =>
				at === index || cents === undefined || before[at] === undefined ? undefined : cents - before[at],
			);
		});
	});
	let [doubts, answers] = [0, 0];
	for (const answer of estimates) {
		if (!answer) continue;
		doubts += answer.sd ** 2;
		answers += answer.mean ** 2;
	}
	return answers > 0 ? Math.min(1, Math.sqrt(doubts / answers)) : 0;
}

function slopesAt(belief: Belief, x: Float64Array, sounding: readonly number[]): Matrix {
	const step = 1e-3;
	const slopes = Matrix.zeros(sounding.length, sounding.length);
	for (const [column, index] of sounding.entries()) {
		const at = belief.layout.pull(index);
		const [high, low] = [step, -step].map(change => {
			const y = Float64Array.from(x);
			y[at]! += change;
			return centsOf(belief, y);
		});
		for (const [row, other] of sounding.entries()) {
			const slope = ((high![other] ?? 0) - (low![other] ?? 0)) / (2 * step);
			slopes.set(row, column, slope);
		}

		// A slack string answers nothing; keep the matrix solvable.
		if (slopes.get(column, column) === 0) slopes.set(column, column, 866);
	}

	return slopes;
}
