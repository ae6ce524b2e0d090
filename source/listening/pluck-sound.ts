import type {Gap} from './gaps.ts';

/** A pluck, or as much of it as is there yet. */
export interface PluckSound {
	readonly samples: Float32Array;
	readonly sampleRateHz: number;
	/** Time of the first sample after the onset, s. */
	readonly sinceOnsetS: number;
	/** What rang before the onset, if that is known. */
	readonly before?: Float32Array;
	/** Where samples were lost, as indices into `samples`. */
	readonly gaps?: readonly Gap[];
	/** Frequencies where a string is believed to sound; only a help in finding it among others. */
	readonly believedHz?: readonly number[];
}

/** Stretches between gaps, as indices [from, to). */
export function stretchesBetween(samples: Float32Array, gaps: readonly Gap[]): readonly Gap[] {
	const stretches: Gap[] = [];
	let from = 0;
	for (const [gapFrom, gapTo] of [...gaps].sort((a, b) => a[0] - b[0])) {
		if (gapFrom > from) stretches.push([from, gapFrom]);
		from = Math.max(from, gapTo);
	}

	if (from < samples.length) stretches.push([from, samples.length]);
	return stretches;
}

export function longestStretch(samples: Float32Array, gaps: readonly Gap[]): Float32Array {
	const [from, to] = stretchesBetween(samples, gaps).reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a), [0, 0]);
	return samples.subarray(from, to);
}
