import type {Belief} from '../estimation/belief.ts';
import {dot, propagated} from '../estimation/gaussian.ts';
import {heldCents, only, poseOf} from '../estimation/hold.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import type {TuningGoal} from './goal.ts';
import {centsAt} from './landing.ts';

/** One string that may be turned next. */
export interface Candidate {
	readonly index: number;
	/** Where the tuner would stand after the turn, cents. */
	readonly toCents: number;
	/** Where the string would end, hand and all included. */
	readonly landing: Estimate;
	/** Of the landing; see `propagated`. */
	readonly loadings: Float64Array;
	/** Probability that it lands within tolerance. */
	readonly sure: number;
}

/** What a spread of all other landings shrunk by one e-fold is worth, in strings that land. */
const lessonValue = 0.15;

/**
 * How good each candidate is as the next turn: strings expected to land for
 * good, itself now and the others as they would stand one step later, once the
 * bridge has answered and every string was read. A string that will miss
 * whatever is done is turned for what its turn teaches; one that would land
 * later is not wasted on that.
 *
 * @returns One number a candidate, more is better.
 */
export function worthOfTurns(belief: Belief, goal: TuningGoal, candidates: readonly Candidate[]): readonly number[] {
	if (candidates.length < 3) return candidates.map(({sure}) => sure);
	const n = belief.strings.length;
	const {loadings: answers} = propagated(belief, x => {
		const now = poseOf(belief, x);
		const before = centsAt(belief, now.x, now.angleRad);
		return candidates.flatMap(({index, toCents}) => {
			return heldCents(belief, now, only(belief, index, toCents)).map((cents, at) =>
				at === index || cents === undefined || before[at] === undefined ? undefined : cents - before[at],
			);
		});
	});
	// A move is the difference of two readings.
	const variance = 2 * goal.readingCents ** 2;
	return candidates.map(({index, sure}, at) => {
		const others = candidates.filter(other => other.index !== index);
		const left = others.map(({loadings}) => Float64Array.from(loadings));
		const seen = answers.slice(at * n, (at + 1) * n).map(row => Float64Array.from(row));
		for (let reading = 0; reading < n; reading++) learnFrom(seen[reading]!, variance, left, seen.slice(reading + 1));
		return others.reduce((worth, {landing, loadings}, which) => {
			const less = dot(loadings, loadings) - dot(left[which]!, left[which]!);
			const sd = Math.sqrt(Math.max(landing.sd ** 2 - less, goal.handCents ** 2));
			const later = probabilityWithin({mean: 0, sd}, goal.toleranceCents);
			return worth + later + lessonValue * Math.log(landing.sd / sd);
		}, sure);
	});
}

/** Takes out of quantities what a reading of another tells of them: rows stay loadings whose inner products are covariances. */
function learnFrom(seen: Float64Array, variance: number, ...quantities: readonly (readonly Float64Array[])[]): void {
	const known = dot(seen, seen);
	const total = known + variance;
	if (known < 1e-9) return;
	// (I − c s sᵀ)² = I − s sᵀ / total
	const share = (1 - Math.sqrt(variance / total)) / known;
	for (const rows of quantities) {
		for (const row of rows) {
			const along = share * dot(row, seen);
			for (let k = 0; k < row.length; k++) row[k]! -= along * seen[k]!;
		}
	}
}
