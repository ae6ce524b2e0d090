import {amplitudeNear, spectrumOf} from './spectrum.ts';

export interface Hum {
	/** Mains frequency, 50 or 60 Hz. */
	readonly hz: 50 | 60;
	/** Root mean square of its lines, dB re full scale. */
	readonly levelDb: number;
}

/** Lines looked at, as multiples of the mains frequency. */
const multiples = [1, 2, 3, 4, 5, 6, 7] as const;
/** Hum softer than this does no harm. */
const harmlessDb = -55;

/**
 * Mains hum in a stretch where nobody plays, at least 0.3 s: lines at multiples
 * of 50 or 60 Hz that hold most of the power.
 *
 * @returns undefined if there is none to speak of.
 */
export function humIn(samples: Float32Array, sampleRateHz: number): Hum | undefined {
	if (samples.length < 0.3 * sampleRateHz) return undefined;
	const spectrum = spectrumOf(samples, sampleRateHz);
	let whole = 0;
	for (const x of samples) whole += x * x;
	whole /= samples.length;
	const found = ([50, 60] as const).map(hz => ({
		hz,
		power: multiples.reduce((sum, k) => sum + amplitudeNear(spectrum, k * hz, 0.004 * k * hz) ** 2 / 2, 0),
	}));
	const [most, other] = found.sort((a, b) => b.power - a.power) as [(typeof found)[0], (typeof found)[0]];
	const levelDb = 10 * Math.log10(most.power + 1e-12);
	return levelDb > harmlessDb && most.power > 0.5 * whole && most.power > 2 * other.power
		? {hz: most.hz, levelDb}
		: undefined;
}
