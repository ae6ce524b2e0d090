import {inverse, Matrix} from 'ml-matrix';
import type {PartialLaw} from './partial-law.ts';
import {stiffnessSlope} from './partial-trust.ts';
import {leftOver, type PhaseSums, productOf, withPhase} from './phase-sums.ts';

/** Glides of 5 to 15 cents are usual after a pluck (common practice, no source); as a ratio, one standard deviation. */
export const glidePriorSd = (12 * Math.LN2) / 1200;
/** Stiffness coefficients differ from a coarse start by less than this. */
export const stiffnessPriorSd = 1e-3;

/** Changes against the law that the phases were taken around. */
export interface LawShift {
	/** Relative change of f₀. */
	readonly sharper: number;
	/** Change of B. */
	readonly stiffer: number;
	/** Relative sharpness at the onset. */
	readonly glide: number;
	/** Of the three, in this order. */
	readonly covariance: Matrix;
	/** Weighted squares left over. */
	readonly cost: number;
}

/** What each unknown does to a partial's phase. */
const unknowns = ['steady', 'steady', 'glide'] as const;
const priors = [0, 1 / stiffnessPriorSd ** 2, 1 / glidePriorSd ** 2] as const;

/**
 * Least squares for f₀, B and glide over all partials, the glide's time given.
 *
 * @param share How much of each partial's information counts, 0 to 1.
 */
export function solveLaw(partials: readonly PhaseSums[], share: readonly number[], law: PartialLaw): LawShift {
	const normal = Matrix.diag([...priors]);
	const right = Matrix.zeros(3, 1);
	for (const [i, sums] of partials.entries()) {
		const lever = [1, stiffnessSlope(sums.n, law.stiffness), 1];
		for (const [a, motion] of unknowns.entries()) {
			const pull = share[i]! * sums.turn * lever[a]!;
			right.set(a, 0, right.get(a, 0) + pull * withPhase(sums, motion));
			for (const [b, other] of unknowns.entries()) {
				normal.set(a, b, normal.get(a, b) + pull * sums.turn * lever[b]! * productOf(sums, motion, other));
			}
		}
	}

	const covariance = inverse(normal);
	let amounts = covariance.mmul(right).to1DArray();
	if (law.stiffness + amounts[1]! < 0) {
		// Stiffness held at nothing: its row says so, whatever the phases say.
		const held = normal.clone().setRow(1, [0, 1, 0]);
		const wish = right.clone().set(1, 0, -law.stiffness);
		amounts = inverse(held).mmul(wish).to1DArray();
	}

	const [sharper, stiffer, glide] = amounts as [number, number, number];
	let cost = priors.reduce((sum, prior, a) => sum + prior * amounts[a]! ** 2, 0);
	for (const [i, sums] of partials.entries()) {
		cost += share[i]! * leftOver(sums, {steady: sharper + stiffnessSlope(sums.n, law.stiffness) * stiffer, glide});
	}

	return {sharper, stiffer, glide, covariance, cost};
}
