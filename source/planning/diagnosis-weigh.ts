import {CholeskyDecomposition, Matrix} from 'ml-matrix';
import type {Estimate} from '../numeric/estimate.ts';
import type {Candidate, Factor} from './diagnosis-candidates.ts';
import {soundFactors} from './diagnosis-candidates.ts';
import type {DiagnosisCase, Moment} from './diagnosis-case.ts';

/** The readings less what a sound guitar would show, made white: independent, of spread 1. */
export interface Ground {
	readonly moments: readonly Moment[];
	readonly events: number;
	/** Lower triangle L with L Lᵀ = covariance of the readings of a sound guitar. */
	readonly root: Matrix;
	readonly white: Float64Array;
	/** log density of the readings of a sound guitar. */
	readonly logEvidence: number;
	/** Readings that say something: those beyond the first of each string that nothing was known of. */
	readonly freedom: number;
}

/** Pitch of a string of which nothing was known, cents. */
const unknownSd = 300;

export function soundGround(given: DiagnosisCase, moments: readonly Moment[]): Ground {
	const n = moments.length;
	const {before} = given;
	const covariance = Matrix.zeros(n, n);
	const isKnown = (channel: number) => before?.cents[channel] !== undefined;
	const known = (a: number, b: number): number => {
		if (isKnown(a) && isKnown(b)) return before!.covariance[a]![b]!;
		return a === b ? unknownSd ** 2 : 0;
	};
	for (const [row, one] of moments.entries()) {
		for (const [column, other] of moments.entries()) covariance.set(row, column, known(one.channel, other.channel));
		covariance.set(row, row, covariance.get(row, row) + one.sd ** 2);
	}

	const rest = Float64Array.from(moments, ({channel, value}) => value - (before?.cents[channel] ?? 0));
	for (const factor of soundFactors(given)) {
		const load = loadOf(factor, moments);
		const variance = factor.sd ** 2;
		for (let row = 0; row < n; row++) {
			rest[row]! -= factor.mean * load[row]!;
			if (load[row] === 0) continue;
			for (let column = 0; column < n; column++)
				covariance.set(row, column, covariance.get(row, column) + variance * load[row]! * load[column]!);
		}
	}

	const root = new CholeskyDecomposition(symmetric(covariance)).lowerTriangularMatrix;
	const white = whitened(root, rest);
	let logEvidence = 0;
	for (let row = 0; row < n; row++) logEvidence -= Math.log(root.get(row, row)) + white[row]! ** 2 / 2;
	const unknown = new Set(moments.map(({channel}) => channel).filter(channel => !isKnown(channel))).size;
	return {moments, events: given.events.length, root, white, logEvidence, freedom: Math.max(1, n - unknown)};
}

/** Without what rounding made of the two halves. */
function symmetric(matrix: Matrix): Matrix {
	for (let row = 0; row < matrix.rows; row++) {
		for (let column = 0; column < row; column++) matrix.set(row, column, matrix.get(column, row));
	}

	return matrix;
}

/** What every reading gains by one unit of a factor: its steps so far. */
function loadOf({steps}: Factor, moments: readonly Moment[]): Float64Array {
	return Float64Array.from(moments, ({at, channel}) => {
		let sum = 0;
		for (const step of steps) {
			// What a pluck lets go shows in the next reading only; other things at once.
			if (step.at < at || (step.at === at && !step.isAfter)) sum += step.size * step.by[channel]!;
		}

		return sum;
	});
}

/** L⁻¹ v. */
function whitened(root: Matrix, vector: Float64Array): Float64Array {
	const result = Float64Array.from(vector);
	for (let row = 0; row < result.length; row++) {
		for (let column = 0; column < row; column++) result[row]! -= root.get(row, column) * result[column]!;
		result[row]! /= root.get(row, row);
	}

	return result;
}

export interface Evidence {
	readonly logEvidence: number;
	readonly sizeCents: Estimate;
	readonly misfit: number;
}

/**
 * log of the density of the readings if this were the cause, averaged over
 * its sizes, and the size that they speak for. For one size the factors are
 * Gaussian, so all follows from the k × k matrix WᵀW of the whitened loads:
 *
 *     Σ = (V⁻¹ + s² WᵀW)⁻¹,  μ = Σ (V⁻¹ m + s Wᵀ y)
 *     log p = log p₀ + ½ (μᵀ Σ⁻¹ μ − mᵀ V⁻¹ m + log det Σ − log det V)
 */
export function weighed(candidate: Candidate, ground: Ground): Evidence {
	const {factors, sizes} = candidate;
	const {white, root, moments, logEvidence: ofSound, freedom} = ground;
	const atAll = misfitOf(dot(white, white), freedom);
	if (factors.length === 0) return {logEvidence: ofSound, sizeCents: {mean: 0, sd: 0}, misfit: atAll};
	const loads = factors.map(factor => whitened(root, loadOf(factor, moments)));
	const cross = new Matrix(loads.map(one => loads.map(other => dot(one, other))));
	const along = loads.map(load => dot(load, white));
	const fits = sizes.map(size => fitAt(candidate, size, {cross, along, ofSound}));
	const best = fits.reduce((a, b) => (b.logEvidence > a.logEvidence ? b : a));
	const sum = fits.reduce((total, {logEvidence}) => total + Math.exp(logEvidence - best.logEvidence), 0);
	const left = Float64Array.from(white);
	for (const [at, load] of loads.entries()) {
		for (let row = 0; row < left.length; row++) left[row]! -= best.size * best.mean[at]! * load[row]!;
	}

	return {
		logEvidence: best.logEvidence + Math.log(sum / sizes.length),
		sizeCents: best.sizeCents,
		misfit: misfitOf(dot(left, left), freedom),
	};
}

function misfitOf(squares: number, freedom: number): number {
	return Math.sqrt(squares / freedom);
}

interface Fit {
	readonly size: number;
	readonly mean: readonly number[];
	readonly logEvidence: number;
	readonly sizeCents: Estimate;
}

function fitAt(
	{factors}: Candidate,
	size: number,
	{cross, along, ofSound}: {cross: Matrix; along: readonly number[]; ofSound: number},
): Fit {
	const precision = Matrix.mul(cross, size * size);
	let log = ofSound;
	const pull = factors.map(({mean, sd}, at) => {
		precision.set(at, at, precision.get(at, at) + 1 / sd ** 2);
		log -= mean ** 2 / (2 * sd ** 2) + Math.log(sd);
		return mean / sd ** 2 + size * along[at]!;
	});
	const decomposed = new CholeskyDecomposition(symmetric(precision));
	const mean = decomposed.solve(Matrix.columnVector(pull)).to1DArray();
	log += dot(mean, pull) / 2;
	for (let at = 0; at < factors.length; at++) log -= Math.log(decomposed.lowerTriangularMatrix.get(at, at));
	const counted = factors.map(({counts}) => counts ?? 0);
	const spread = decomposed.solve(Matrix.columnVector(counted)).to1DArray();
	return {
		size,
		mean,
		logEvidence: log,
		sizeCents: {mean: size * dot(counted, mean), sd: size * Math.sqrt(Math.max(0, dot(counted, spread)))},
	};
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
	let sum = 0;
	for (let at = 0; at < a.length; at++) sum += a[at]! * b[at]!;
	return sum;
}
