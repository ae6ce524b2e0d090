import {errorFunction} from 'simple-statistics';
import type {Estimate} from './estimate.ts';

/**
 * Standard deviations on either side of the mean that hold nine tenths of a
 * Gaussian: its 95 % quantile. Standard normal table: 1.645.
 */
export const ninetyPercent = 1.645;

/** Probability that a normal variable lies within ±limit of zero, 0 to 1. */
export function probabilityWithin({mean, sd}: Estimate, limit: number): number {
	if (sd <= 0) return Math.abs(mean) <= limit ? 1 : 0;
	const root = sd * Math.SQRT2;
	return 0.5 * (errorFunction((limit - mean) / root) - errorFunction((-limit - mean) / root));
}
