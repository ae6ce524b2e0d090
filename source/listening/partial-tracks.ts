import {type PartialLaw, partialHz} from './partial-law.ts';

/**
 * One partial over time: the sound turned down by its expected frequency and
 * smoothed, as a complex number per frame. A partial exactly where expected
 * stands still; one that is sharp turns forwards.
 */
export interface PartialTrack {
	/** Partial number; half-integers are the gaps between, used to measure noise. */
	readonly n: number;
	/** Frequency it was turned down by, Hz. */
	readonly referenceHz: number;
	/** Complex amplitude per frame (a sinusoid of amplitude A gives |z| = A). */
	readonly re: Float64Array;
	readonly im: Float64Array;
}

export interface Tracks {
	readonly tracks: readonly PartialTrack[];
	/** Centre of each frame, seconds from the first sample. */
	readonly timesS: Float64Array;
	/** Distance of frames, s. */
	readonly hopS: number;
	/** Variance of a complex amplitude per unit variance of white noise in the samples. */
	readonly noiseGain: number;
	/** Frames that count as one independent look. */
	readonly framesPerLook: number;
}

/**
 * Tracks of partials `numbers` through `samples`.
 *
 * Sound is summed over quarter periods, then smoothed by a Hann window of four
 * periods (at least 30 ms): neighbouring partials lie beyond its first null,
 * and quarter periods fold only every fourth partial back, where the sum over
 * a quarter period is itself null.
 */
export function trackPartials(
	samples: Float32Array,
	sampleRateHz: number,
	law: PartialLaw,
	numbers: readonly number[],
): Tracks {
	const periodS = 1 / law.idealHz;
	const quarter = Math.max(1, Math.round((periodS * sampleRateHz) / 4));
	const quarterS = quarter / sampleRateHz;
	const taps = Math.max(8, Math.round(Math.max(4 * periodS, 0.03) / quarterS));
	const hop = Math.max(1, Math.floor(taps / 4));
	const quarters = Math.floor(samples.length / quarter);
	const frames = Math.max(0, Math.floor((quarters - taps) / hop) + 1);
	const window = Float64Array.from({length: taps}, (_, j) => 0.5 - 0.5 * Math.cos((2 * Math.PI * (j + 0.5)) / taps));
	const windowSum = window.reduce((a, b) => a + b, 0);
	const windowSquares = window.reduce((a, b) => a + b * b, 0);
	const timesS = Float64Array.from({length: frames}, (_, k) => (k * hop + taps / 2) * quarterS);

	const tracks = numbers.map(n => {
		const referenceHz = partialHz(law, n);
		const sumRe = new Float64Array(quarters);
		const sumIm = new Float64Array(quarters);
		const turn = (-2 * Math.PI * referenceHz) / sampleRateHz;
		const c = Math.cos(turn);
		const s = Math.sin(turn);
		for (let q = 0; q < quarters; q++) {
			// Start each quarter from an exact phase, so that rounding cannot build up.
			let re = Math.cos(turn * q * quarter);
			let im = Math.sin(turn * q * quarter);
			let totalRe = 0;
			let totalIm = 0;
			for (let i = q * quarter; i < (q + 1) * quarter; i++) {
				const x = samples[i]!;
				totalRe += x * re;
				totalIm += x * im;
				const next = re * c - im * s;
				im = re * s + im * c;
				re = next;
			}

			sumRe[q] = totalRe;
			sumIm[q] = totalIm;
		}

		const re = new Float64Array(frames);
		const im = new Float64Array(frames);
		const scale = 2 / (windowSum * quarter);
		for (let k = 0; k < frames; k++) {
			let a = 0;
			let b = 0;
			for (let j = 0; j < taps; j++) {
				a += window[j]! * sumRe[k * hop + j]!;
				b += window[j]! * sumIm[k * hop + j]!;
			}

			re[k] = a * scale;
			im[k] = b * scale;
		}

		return {n, referenceHz, re, im};
	});
	return {
		tracks,
		timesS,
		hopS: hop * quarterS,
		noiseGain: (4 * windowSquares) / (windowSum ** 2 * quarter),
		framesPerLook: windowSum ** 2 / windowSquares / hop,
	};
}
