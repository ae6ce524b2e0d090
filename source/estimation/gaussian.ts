import {Matrix} from 'ml-matrix';
import type {Estimate} from '../numeric/estimate.ts';

/** Variance of a linear form: gᵀ P g. */
export function varianceAlong(covariance: Matrix, gradient: Float64Array): number {
	const column = Matrix.columnVector(gradient);
	return Math.max(0, column.transpose().mmul(covariance).mmul(column).get(0, 0));
}

/**
 * Mean and covariance after one scalar measurement with the given gradient
 * (Kalman's update, in the form that keeps the covariance symmetric).
 *
 * @param innovation Measured less predicted, in the measurement's unit.
 * @param variance Of the measurement's noise, same unit squared, > 0.
 */
export function measured(
	state: {readonly mean: Float64Array; readonly covariance: Matrix},
	measurement: {readonly gradient: Float64Array; readonly innovation: number; readonly variance: number},
): {mean: Float64Array; covariance: Matrix} {
	const gain = state.covariance.mmul(Matrix.columnVector(measurement.gradient));
	const column = gain.to1DArray();
	let total = measurement.variance;
	for (let index = 0; index < column.length; index++) total += measurement.gradient[index]! * column[index]!;
	const step = measurement.innovation / total;
	return {
		mean: state.mean.map((value, index) => value + column[index]! * step),
		covariance: Matrix.sub(state.covariance, gain.mmul(gain.transpose()).div(total)),
	};
}

/** Replaces unknown `at` by a linear form of all unknowns plus independent noise. */
export function replaced(covariance: Matrix, at: number, row: Float64Array, addedVariance: number): Matrix {
	const cross = covariance.mmul(Matrix.columnVector(row)).to1DArray();
	let variance = addedVariance;
	for (let index = 0; index < cross.length; index++) variance += row[index]! * cross[index]!;
	const result = covariance.clone();
	for (let index = 0; index < cross.length; index++) {
		result.set(at, index, cross[index]!);
		result.set(index, at, cross[index]!);
	}

	result.set(at, at, variance);
	return result;
}

/** Forgets unknown `at`: independent of the rest, with a variance of its own. */
export function forgotten(covariance: Matrix, at: number, variance: number): Matrix {
	return replaced(covariance, at, new Float64Array(covariance.rows), variance);
}

/**
 * Means and spreads of several quantities that are functions of the unknowns,
 * by central differences at the mean. The steps are small on purpose: the
 * unknowns are far better known together than one by one, and what cancels
 * between them must cancel in the differences too.
 *
 * @returns One estimate a quantity, in its unit; `undefined` where the
 * function is undefined at the mean.
 */
export function propagated(
	state: {readonly mean: Float64Array; readonly covariance: Matrix},
	functions: (x: Float64Array) => readonly (number | undefined)[],
): {readonly estimates: readonly (Estimate | undefined)[]; readonly jacobian: readonly Float64Array[]} {
	const atMean = functions(state.mean);
	const size = state.mean.length;
	const jacobian = atMean.map(() => new Float64Array(size));
	for (let index = 0; index < size; index++) {
		const sd = Math.sqrt(Math.max(0, state.covariance.get(index, index)));
		const step = Math.min(0.5 * sd, 2e-4);
		if (step < 1e-12) continue;
		const up = Float64Array.from(state.mean);
		const down = Float64Array.from(state.mean);
		up[index]! += step;
		down[index]! -= step;
		const high = functions(up);
		const low = functions(down);
		for (const [row, middle] of atMean.entries()) {
			if (middle === undefined) continue;
			const upper = high[row];
			const lower = low[row];
			jacobian[row]![index] =
				upper !== undefined && lower !== undefined
					? (upper - lower) / (2 * step)
					: upper !== undefined
						? (upper - middle) / step
						: lower !== undefined
							? (middle - lower) / step
							: 0;
		}
	}

	return {
		jacobian,
		estimates: atMean.map((mean, row) =>
			mean === undefined ? undefined : {mean, sd: Math.sqrt(varianceAlong(state.covariance, jacobian[row]!))},
		),
	};
}
