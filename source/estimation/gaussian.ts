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
 * Lower triangular L with L Lᵀ = covariance; the k-th entry is column k.
 * A direction in which nothing is unknown gives a column of zeros.
 */
export function spreadColumns(covariance: Matrix): readonly Float64Array[] {
	const size = covariance.rows;
	const columns: Float64Array[] = [];
	for (let k = 0; k < size; k++) {
		const column = new Float64Array(size);
		columns.push(column);
		let left = covariance.get(k, k);
		for (let done = 0; done < k; done++) left -= columns[done]![k]! ** 2;
		if (left <= 1e-18 + 1e-13 * covariance.get(k, k)) continue;
		const root = Math.sqrt(left);
		column[k] = root;
		for (let row = k + 1; row < size; row++) {
			let value = covariance.get(row, k);
			for (let done = 0; done < k; done++) value -= columns[done]![row]! * columns[done]![k]!;
			column[row] = value / root;
		}
	}

	return columns;
}

/** The guesses one spread to either side along each column; `undefined` for a column of zeros. Made once for a state. */
export function spreadPoints(state: {
	readonly mean: Float64Array;
	readonly covariance: Matrix;
}): readonly ({readonly up: Float64Array; readonly down: Float64Array} | undefined)[] {
	const known = pointsOf.get(state);
	if (known) return known;
	const {mean} = state;
	const points = spreadColumns(state.covariance).map((column, k) => {
		if (column[k] === 0) return undefined;
		const up = new Float64Array(mean.length);
		const down = new Float64Array(mean.length);
		for (let at = 0; at < mean.length; at++) {
			up[at] = mean[at]! + column[at]!;
			down[at] = mean[at]! - column[at]!;
		}

		return {up, down};
	});
	pointsOf.set(state, points);
	return points;
}

const pointsOf = new WeakMap<object, ReturnType<typeof spreadPoints>>();

/** Quantities that follow from the unknowns, with their spreads. */
export interface Propagated {
	/** One a quantity, in its unit; `undefined` where the function is undefined at the mean. */
	readonly estimates: readonly (Estimate | undefined)[];
	/** Row = quantity: what one spread along each of the columns of `spreadColumns` does to it. Covariances are inner products of rows. */
	readonly loadings: readonly Float64Array[];
}

/** Mean and covariance of the unknowns, with less likely ones beside it if there are several accounts of them. */
interface Mixed extends State {
	readonly others?: readonly {readonly weight: number; readonly belief: State}[] | undefined;
}

interface State {
	readonly mean: Float64Array;
	readonly covariance: Matrix;
}

/**
 * Means and spreads of several quantities that are functions of the unknowns.
 * With several accounts of these, mean and spread are those of all of them
 * together: what they differ by is spread too.
 */
export function propagated(state: Mixed, functions: (x: Float64Array) => readonly (number | undefined)[]): Propagated {
	const {others} = state;
	if (!others) return propagatedByOne(state, functions);
	const own = 1 - others.reduce((sum, {weight}) => sum + weight, 0);
	const parts = [{weight: own, belief: state}, ...others].map(({weight, belief}) => ({
		weight,
		...propagatedByOne(belief, functions),
	}));
	const loadings: Float64Array[] = [];
	const estimates = parts[0]!.estimates.map((first, row) => {
		const heard = first ? parts.filter(({estimates: each}) => each[row] !== undefined) : [];
		const total = heard.reduce((sum, {weight}) => sum + weight, 0);
		const mean = heard.reduce((sum, {weight, estimates: each}) => sum + weight * each[row]!.mean, 0) / total;
		const loading = Float64Array.from(
			parts.flatMap(part => {
				const there = part.loadings[row]!;
				if (!heard.includes(part)) return Array.from({length: there.length + 1}, () => 0);
				const root = Math.sqrt(part.weight / total);
				return [...there.map(each => root * each), root * (part.estimates[row]!.mean - mean)];
			}),
		);
		loadings.push(loading);
		return first && {mean, sd: Math.sqrt(dot(loading, loading))};
	});
	return {estimates, loadings};
}

/**
 * Means and spreads of several quantities that are functions of the unknowns,
 * by divided differences over one spread along each column of the
 * covariance's root (M. Nørgaard, N. K. Poulsen, O. Ravn, Automatica 36(11),
 * 2000; from memory). Along those columns everything that is known together
 * stays together, and a kink that may be met within the spread is felt.
 */
function propagatedByOne(state: State, functions: (x: Float64Array) => readonly (number | undefined)[]): Propagated {
	const atMean = functions(state.mean);
	const points = spreadPoints(state);
	const loadings = atMean.map(() => new Float64Array(points.length));
	for (const [k, point] of points.entries()) {
		if (!point) continue;
		const high = functions(point.up);
		const low = functions(point.down);
		for (const [row, middle] of atMean.entries()) {
			if (middle === undefined) continue;
			const upper = high[row];
			const lower = low[row];
			loadings[row]![k] =
				upper !== undefined && lower !== undefined
					? (upper - lower) / 2
					: upper !== undefined
						? upper - middle
						: lower !== undefined
							? middle - lower
							: 0;
		}
	}

	return {
		loadings,
		estimates: atMean.map((mean, row) =>
			mean === undefined ? undefined : {mean, sd: Math.sqrt(dot(loadings[row]!, loadings[row]!))},
		),
	};
}

/** Inner product. */
export function dot(one: ArrayLike<number>, other: ArrayLike<number>): number {
	let sum = 0;
	for (let index = 0; index < one.length; index++) sum += one[index]! * other[index]!;
	return sum;
}
