import {Matrix, solve} from 'ml-matrix';
import type {Belief} from '../estimation/belief.ts';
import {holdCents} from '../estimation/hold.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {strictnessOf, type TuningGoal} from './goal.ts';
import {aimsOf, allAtPitch, centsOf} from './landing.ts';

/** Which strings to turn, and where each should stand when all is done. */
export interface TurnChoice {
	readonly todo: ReadonlySet<number>;
	/** Cents at the end, by string; 0 for those not turned. */
	readonly endCents: readonly number[];
}

/** End places tried, as shares of the tolerance: a string that is turned anyway may stand a little off to help the rest. */
const endShares = [-0.45, -0.3, -0.15, 0, 0.15, 0.3, 0.45] as const;

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
	const far = sounding.filter(index => {
		const way = (places[index] ?? 1e4) - (now[index]?.mean ?? -1e4);
		return Math.abs(way) > 6 * goal.toleranceCents || belief.strings[index]!.on === 'slack';
	});
	const optional = sounding.filter(index => !far.includes(index));
	const atEnd = holdCents(
		belief,
		belief.mean,
		belief.strings.map((_, index) => (far.includes(index) ? 0 : undefined)),
	).x;
	const restCents = centsOf(belief, atEnd);
	const newness = sounding.map(index => belief.strings[index]!.newness);
	const slopes = slopesAt(belief, atEnd, sounding);
	let best: (TurnChoice & {cost: number}) | undefined;
	for (let bits = 0; bits < 2 ** optional.length; bits++) {
		const chosen = [...far, ...optional.filter((_, at) => (bits >> at) & 1)];
		// No set of more turns can win once the turns alone cost as much.
		if (best && chosen.length >= best.cost) continue;
		const option = weigh({goal, now, sounding, newness, restCents, slopes}, chosen);
		if (!best || option.cost < best.cost) best = option;
	}

	return best ?? {todo: new Set(), endCents: belief.strings.map(() => 0)};
}

interface Situation {
	readonly goal: TuningGoal;
	readonly now: readonly (Estimate | undefined)[];
	readonly sounding: readonly number[];
	/** In the order of `sounding`: a new string goes on giving. */
	readonly newness: readonly number[];
	/** Cents once the far ones are at pitch. */
	readonly restCents: readonly (number | undefined)[];
	/** Row = string moved, column = string turned, cents per unit of pull, in the order of `sounding`. */
	readonly slopes: Matrix;
}

function weigh(situation: Situation, chosen: readonly number[]): TurnChoice & {cost: number} {
	const {goal, now, sounding, newness, restCents, slopes} = situation;
	const turnedAt = chosen.map(index => sounding.indexOf(index));
	const leftAt = sounding.map((_, at) => at).filter(at => !turnedAt.includes(at));
	const start = sounding.map(index => restCents[index] ?? 0);
	// Untouched strings follow the turned ones: c_left = c + G_lt G_tt⁻¹ (end − c_turned).
	const follow =
		turnedAt.length > 0 && leftAt.length > 0
			? slopes
					.selection(leftAt, turnedAt)
					.mmul(solve(slopes.selection(turnedAt, turnedAt), Matrix.eye(turnedAt.length)))
			: undefined;
	const turnedSd = Math.hypot(goal.handCents, goal.readingCents);
	const cost = (ends: readonly number[]): number => {
		let misses = 0;
		for (const end of ends) misses += missOf({mean: end, sd: turnedSd}, goal.toleranceCents);
		for (const [row, at] of leftAt.entries()) {
			let mean = start[at]!;
			for (const [column, end] of ends.entries())
				mean += (follow?.get(row, column) ?? 0) * (end - start[turnedAt[column]!]!);
			const sd = Math.hypot(now[sounding[at]!]?.sd ?? 100, goal.readingCents / 2, 2.5 * newness[at]!);
			misses += missOf({mean, sd}, goal.toleranceCents);
		}

		return chosen.length + strictnessOf(goal).costOfMiss * misses;
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
function missOf(error: Estimate, toleranceCents: number): number {
	return 1 - probabilityWithin(error, toleranceCents) + Math.max(0, Math.abs(error.mean) / toleranceCents - 1);
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
