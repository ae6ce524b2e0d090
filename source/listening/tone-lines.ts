import {amplitudeNear, type Peak, peaksOf, type Spectrum, spectrumOf} from './spectrum.ts';

/** Lines of a pluck, and what was already there before it. */
export interface ToneLines {
	/** With the amplitude that came with the pluck: what rang before is taken off, as power. */
	readonly lines: readonly Peak[];
	readonly lineHalfWidthHz: number;
	/** Amplitude that rang at a frequency before the pluck. */
	readonly before: (hz: number) => number;
}

/** Range in which lines are looked for: below the lowest string of eight, above what decides a pitch. */
const soughtHz = [30, 6000] as const;

/** Lines of a stretch after the onset, against a stretch before it. */
export function toneLines(after: Float32Array, before: Float32Array | undefined, sampleRateHz: number): ToneLines {
	const now = spectrumOf(after, sampleRateHz);
	// Too short a stretch would smear its lines over their neighbours.
	const then: Spectrum | undefined =
		before && before.length > 0.15 * sampleRateHz ? spectrumOf(before, sampleRateHz) : undefined;
	const reachHz = now.lineHalfWidthHz / 2;
	const rangBefore = (hz: number) => (then ? amplitudeNear(then, hz, reachHz) : 0);
	const lines = peaksOf(now, ...soughtHz).flatMap(({hz, amplitude}) => {
		const power = amplitude ** 2 - rangBefore(hz) ** 2;
		return power > 0.2 * amplitude ** 2 ? [{hz, amplitude: Math.sqrt(power)}] : [];
	});
	return {lines, lineHalfWidthHz: now.lineHalfWidthHz, before: rangBefore};
}
