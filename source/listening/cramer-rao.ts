import {inverse, Matrix} from 'ml-matrix';
import {centsPerLog} from '../music/pitch.ts';
import {stiffnessSlope} from './partial-trust.ts';

/** Decaying partials in white noise, sampled for a while. */
export interface BoundedTone {
	readonly partials: readonly {
		readonly n: number;
		readonly hz: number;
		readonly amplitude: number;
		readonly decayPerS: number;
	}[];
	readonly stiffness: number;
	/** Standard deviation of white noise per sample. */
	readonly noise: number;
	readonly sampleRateHz: number;
	/** Stretch heard, s after the onset. */
	readonly fromS: number;
	readonly toS: number;
	/** Attack glide with unknown size and time, if there is one. */
	readonly glide?: {readonly relative: number; readonly timeS: number};
}

/**
 * The Cramér-Rao bound: no unbiased estimate of the first partial can have a
 * smaller standard deviation than this, cents, whatever the method.
 *
 * A sample of a partial of amplitude A carries information A²/2σ² on its
 * phase. Unknown are each partial's own phase, f₀, B and, with a glide, its
 * size and time; amplitudes do not mix with phases and drop out.
 *
 * @see S. M. Kay, Fundamentals of Statistical Signal Processing: Estimation
 * Theory, Prentice Hall, 1993, ch. 3, for one steady sinusoid, from memory:
 * var f ≥ 12 / ((2π)² η N (N² - 1)) per sample², η = A²/2σ²; the general form
 * here comes to the same.
 */
export function pitchBoundCents(tone: BoundedTone): number {
	const {partials, stiffness, noise, sampleRateHz, fromS, toS, glide} = tone;
	const size = glide ? 4 : 2;
	const information = Matrix.zeros(size, size);
	// A stride keeps it quick: the integrands are smooth over a few milliseconds.
	const steps = 2000;
	const stepS = (toS - fromS) / steps;
	for (const {n, hz, amplitude, decayPerS} of partials) {
		const turn = 2 * Math.PI * hz;
		const rows: Float64Array[] = [];
		const weights = new Float64Array(steps);
		for (let i = 0; i < steps; i++) {
			const t = fromS + (i + 0.5) * stepS;
			weights[i] = ((amplitude * Math.exp(-decayPerS * t)) ** 2 / 2 / noise ** 2) * sampleRateHz * stepS;
			const row = Float64Array.from([turn * t, turn * t * stiffnessSlope(n, stiffness), 0, 0]);
			if (glide) {
				const gone = Math.exp(-t / glide.timeS);
				row[2] = -turn * glide.timeS * gone;
				row[3] = -turn * glide.relative * gone * (1 + t / glide.timeS);
			}

			rows.push(row);
		}

		const total = weights.reduce((a, b) => a + b, 0);
		const mean = Array.from(
			{length: size},
			(_, a) => rows.reduce((sum, row, i) => sum + weights[i]! * row[a]!, 0) / total,
		);
		for (let a = 0; a < size; a++) {
			for (let b = 0; b < size; b++) {
				const product = rows.reduce(
					(sum, row, i) => sum + weights[i]! * (row[a]! - mean[a]!) * (row[b]! - mean[b]!),
					0,
				);
				information.set(a, b, information.get(a, b) + product);
			}
		}
	}

	// One partial says nothing about stiffness.
	const useful = partials.length < 2 ? [0, ...(glide ? [2, 3] : [])] : Array.from({length: size}, (_, i) => i);
	const covariance = inverse(scaled(information.selection(useful, useful)));
	const scale = Math.sqrt(information.get(0, 0));
	const first = covariance.get(0, 0) / scale ** 2;
	if (partials.length < 2) return centsPerLog * Math.sqrt(first);
	const scaleB = Math.sqrt(information.get(1, 1));
	const variance = first + covariance.get(0, 1) / scale / scaleB + covariance.get(1, 1) / scaleB ** 2 / 4;
	return centsPerLog * Math.sqrt(variance);
}

/** Rows and columns brought to a common size, so that the inverse is sound. */
function scaled(matrix: Matrix): Matrix {
	const copy = matrix.clone();
	for (let a = 0; a < matrix.rows; a++) {
		for (let b = 0; b < matrix.rows; b++)
			copy.set(a, b, matrix.get(a, b) / Math.sqrt(matrix.get(a, a) * matrix.get(b, b)));
	}

	return copy;
}
