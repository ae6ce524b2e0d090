import {fft} from 'fourier-transform';

/** Amplitudes over frequency of a stretch of sound, Hann-windowed and zero-padded. */
export interface Spectrum {
	/** A sinusoid of amplitude A between bins shows at least 0.98 A. Length N/2 + 1. */
	readonly amplitude: Float64Array;
	readonly binHz: number;
	/** Half the width of a line, Hz: 2 / duration. */
	readonly lineHalfWidthHz: number;
	/** Typical amplitude of the noise between lines: the median, by third-octave-like stretches. */
	readonly floor: (hz: number) => number;
}

export interface Peak {
	readonly hz: number;
	readonly amplitude: number;
}

/** Spectrum of all of `samples`. */
export function spectrumOf(samples: Float32Array, sampleRateHz: number): Spectrum {
	const length = samples.length;
	let size = 1024;
	while (size < 2 * length) size *= 2;
	const padded = new Float64Array(size);
	for (let i = 0; i < length; i++) padded[i] = samples[i]! * (0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / length));
	const [re, im] = fft(padded);
	const amplitude = new Float64Array(size / 2 + 1);
	// The Hann window sums to half its length; a real sinusoid shares its amplitude with its mirror image.
	for (let k = 0; k < amplitude.length; k++) amplitude[k] = (Math.hypot(re[k]!, im[k]!) * 4) / length;
	const binHz = sampleRateHz / size;
	return {amplitude, binHz, lineHalfWidthHz: (2 * sampleRateHz) / length, floor: floorOf(amplitude, binHz)};
}

/** Median amplitude in stretches each a third wider than the last, starting with 40 to 160 Hz. */
function floorOf(amplitude: Float64Array, binHz: number): (hz: number) => number {
	const stretches: {readonly upToHz: number; readonly median: number}[] = [];
	for (let fromHz = 40, toHz = 160; fromHz < amplitude.length * binHz; fromHz = toHz, toHz *= 4 / 3) {
		const part = amplitude.slice(Math.floor(fromHz / binHz), Math.ceil(toHz / binHz)).sort();
		if (part.length === 0) break;
		stretches.push({upToHz: toHz, median: part[part.length >> 1]!});
	}

	return hz => (stretches.find(s => hz < s.upToHz) ?? stretches.at(-1))?.median ?? 0;
}

/** Largest amplitude within `halfWidthHz` of `hz`. */
export function amplitudeNear({amplitude, binHz}: Spectrum, hz: number, halfWidthHz: number): number {
	let largest = 0;
	const to = Math.min(amplitude.length - 1, Math.ceil((hz + halfWidthHz) / binHz));
	for (let k = Math.max(0, Math.floor((hz - halfWidthHz) / binHz)); k <= to; k++) {
		if (amplitude[k]! > largest) largest = amplitude[k]!;
	}

	return largest;
}

/**
 * Lines between `fromHz` and `toHz` that stand four times above the floor and
 * within 55 dB of the strongest, in order of frequency. Frequency by a parabola
 * through the logarithms of three bins (good to a few hundredths of a bin for
 * a Hann window padded twice).
 */
export function peaksOf(spectrum: Spectrum, fromHz: number, toHz: number): readonly Peak[] {
	const {amplitude, binHz, floor} = spectrum;
	const found: Peak[] = [];
	const last = Math.min(amplitude.length - 2, Math.floor(toHz / binHz));
	for (let k = Math.max(1, Math.ceil(fromHz / binHz)); k <= last; k++) {
		const [before, here, after] = [amplitude[k - 1]!, amplitude[k]!, amplitude[k + 1]!];
		if (here <= before || here < after || here < 4 * floor(k * binHz)) continue;
		const [a, b, c] = [Math.log(before), Math.log(here), Math.log(after)];
		const offset = (0.5 * (a - c)) / (a - 2 * b + c);
		found.push({hz: (k + offset) * binHz, amplitude: Math.exp(b - 0.25 * (a - c) * offset)});
	}

	const strongest = Math.max(0, ...found.map(p => p.amplitude));
	return found.filter(p => p.amplitude > strongest * 10 ** (-55 / 20));
}
