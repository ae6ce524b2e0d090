import type {PartialLaw} from '../../../source/listening/partial-law.ts';
import {rngFrom} from '../../../source/numeric/rng.ts';
import {render} from './scene.ts';
import {drawTone, type SyntheticPartial, type SyntheticTone} from './tone.ts';

/** One pluck after half a second of quiet, for tests that want one. */
export interface OnePluck {
	readonly law: PartialLaw;
	readonly seed?: number;
	readonly changes?: Partial<SyntheticTone>;
	readonly sampleRateHz?: number;
	/** Noise below the pluck, dB. */
	readonly quietDb?: number;
	readonly lengthS?: number;
	readonly level?: number;
}

export const quietS = 0.5;

/** Samples from the beginning; the pluck is at `quietS`. */
export function onePluck({
	law,
	seed = 1,
	changes = {},
	sampleRateHz = 48_000,
	quietDb = 40,
	lengthS = 1.6,
	level = 0.1,
}: OnePluck): {
	readonly samples: Float32Array;
	readonly sampleRateHz: number;
	readonly noise: number;
	readonly tone: SyntheticTone;
	readonly partials: readonly SyntheticPartial[];
} {
	const rng = rngFrom(seed);
	const tone = drawTone(rng, law, level, changes);
	const noise = level * 10 ** (-quietDb / 20);
	const durationS = quietS + lengthS;
	const {samples, partials} = render(rng, {sampleRateHz, durationS, tones: [{tone, startS: quietS, endS: 9}], noise});
	return {samples, sampleRateHz, noise, tone, partials: partials[0]!};
}
