import {Matrix} from 'ml-matrix';
import {measured, varianceAlong} from './gaussian.ts';

/**
 * One way things may have gone at one saddle: a normal belief about five
 * numbers, and how well it has foretold what was seen so far.
 *
 * | entry | meaning | unit |
 * |---|---|---|
 * | error | fretted 12th minus harmonic at the saddle's present place | cents |
 * | slope | how strongly this string answers a move, over the model | 1 |
 * | place | saddle behind the scale line | mm |
 * | pitch | the harmonic now, over target + 1 octave | cents |
 * | oddity | what the story adds: a bend or a slip | cents |
 */
export interface Strand {
	/** Natural logarithm of prior times likelihood. */
	readonly logWeight: number;
	readonly mean: Float64Array;
	/** 5 × 5, order as in the table. */
	readonly covariance: Matrix;
}

export const entry = {error: 0, slope: 1, place: 2, pitch: 3, oddity: 4} as const;
type Entry = keyof typeof entry;
type Weights = Partial<Record<Entry, number>>;

/** A strand with independent entries. */
export function strandOf(mean: Weights, sd: Weights, logWeight = 0): Strand {
	const of = (values: Weights) => {
		const vector = new Float64Array(5);
		for (const [name, value] of Object.entries(values)) vector[entry[name as Entry]] = value;
		return vector;
	};
	return {logWeight, mean: of(mean), covariance: Matrix.diag(Array.from(of(sd), value => value * value))};
}

/** After seeing a weighted sum of the entries, with noise of this variance. */
export function seen(strand: Strand, weights: Weights, value: number, variance: number): Strand {
	const gradient = rowOf(weights);
	let predicted = 0;
	for (const [index, weight] of gradient.entries()) predicted += weight * strand.mean[index]!;
	const innovation = value - predicted;
	const total = varianceAlong(strand.covariance, gradient) + variance;
	const logLikelihood = -0.5 * (innovation ** 2 / total + Math.log(2 * Math.PI * total));
	return {...measured(strand, {gradient, innovation, variance}), logWeight: strand.logWeight + logLikelihood};
}

/**
 * After adding one unknown amount, spread around a mean, to several entries in
 * proportion: a saddle that moves takes error and place with it.
 */
export function added(strand: Strand, share: Weights, amount: {readonly mean: number; readonly sd: number}): Strand {
	const column = Matrix.columnVector(rowOf(share));
	return {
		...strand,
		mean: strand.mean.map((value, index) => value + column.get(index, 0) * amount.mean),
		covariance: Matrix.add(strand.covariance, column.mmul(column.transpose()).mul(amount.sd ** 2)),
	};
}

/** After one entry has taken a weighted sum of the others on top of itself. */
export function mixedInto(strand: Strand, target: Entry, weights: Weights): Strand {
	const map = Matrix.identity(5);
	const row = rowOf(weights);
	for (let index = 0; index < 5; index++) {
		map.set(entry[target], index, map.get(entry[target], index) + row[index]!);
	}
	return {
		...strand,
		mean: Float64Array.from(map.mmul(Matrix.columnVector(strand.mean)).to1DArray()),
		covariance: map.mmul(strand.covariance).mmul(map.transpose()),
	};
}

/** One entry forgotten and believed anew. */
export function renewed(strand: Strand, name: Entry, mean: number, sd: number): Strand {
	const at = entry[name];
	const covariance = strand.covariance.clone();
	for (let index = 0; index < 5; index++) {
		covariance.set(at, index, 0);
		covariance.set(index, at, 0);
	}
	covariance.set(at, at, sd * sd);
	const values = Float64Array.from(strand.mean);
	values[at] = mean;
	return {...strand, mean: values, covariance};
}

/** One strand with the mean and covariance of several taken by their weights; its own weight is their sum. */
export function merged(strands: readonly Strand[]): Strand {
	const logWeight = logSum(strands.map(strand => strand.logWeight));
	const mean = new Float64Array(5);
	for (const strand of strands) {
		const share = Math.exp(strand.logWeight - logWeight);
		for (let index = 0; index < 5; index++) mean[index]! += share * strand.mean[index]!;
	}
	let covariance = Matrix.zeros(5, 5);
	for (const strand of strands) {
		const share = Math.exp(strand.logWeight - logWeight);
		const away = Matrix.columnVector(strand.mean.map((value, index) => value - mean[index]!));
		covariance = covariance.add(Matrix.add(strand.covariance, away.mmul(away.transpose())).mul(share));
	}
	return {logWeight, mean, covariance};
}

/** ln Σ exp, safe for large negative numbers. */
export function logSum(logs: readonly number[]): number {
	const top = Math.max(...logs);
	return top + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - top), 0));
}

function rowOf(weights: Weights): Float64Array {
	const row = new Float64Array(5);
	for (const [name, weight] of Object.entries(weights)) row[entry[name as Entry]] = weight;
	return row;
}
