import type {Rng} from '../../../source/numeric/rng.ts';
import {addPickNoise, addTone, partialsOf, type SyntheticPartial, type SyntheticTone} from './tone.ts';

/** A stretch of sound: tones at their times, and everything that spoils them. */
export interface Scene {
	readonly sampleRateHz: number;
	readonly durationS: number;
	readonly tones: readonly {readonly tone: SyntheticTone; readonly startS: number; readonly endS: number}[];
	/** Root mean square of white noise. */
	readonly noise: number;
	readonly hum?: {readonly hz: number; readonly level: number};
	/** Lost stretches: samples replaced by silence, or cut out so that the rest moves up. */
	readonly dropouts?: readonly {readonly atS: number; readonly lengthS: number; readonly kind: 'zeros' | 'cut'}[];
	/** Full scale is 1; louder is clipped, as a sound card does. Samples are rounded to 16 bits. */
	readonly gain?: number;
}

export interface Rendered {
	readonly samples: Float32Array;
	/** Of each tone, in order. */
	readonly partials: readonly (readonly SyntheticPartial[])[];
}

export function render(rng: Rng, scene: Scene): Rendered {
	const {sampleRateHz, durationS} = scene;
	const out = new Float64Array(Math.round(durationS * sampleRateHz));
	const partials = scene.tones.map(({tone, startS, endS}) => {
		const own = partialsOf(rng, tone, sampleRateHz);
		addTone(out, sampleRateHz, tone, own, {startS, endS: Math.min(endS, durationS)});
		if (tone.pickNoise > 0) addPickNoise(rng, out, sampleRateHz, tone, startS);
		return own;
	});
	if (scene.noise > 0) for (let i = 0; i < out.length; i++) out[i]! += scene.noise * rng.normal();
	if (scene.hum) addHum(out, sampleRateHz, scene.hum);
	const whole = Float32Array.from(
		out,
		x => Math.round(32_768 * Math.max(-1, Math.min(32_767 / 32_768, x * (scene.gain ?? 1)))) / 32_768,
	);
	return {samples: dropOut(whole, scene), partials};
}

/** Mains hum: the line, strong odd and weak even overtones (common practice, no source). */
function addHum(
	out: Float64Array,
	sampleRateHz: number,
	{hz, level}: {readonly hz: number; readonly level: number},
): void {
	const shares = [1, 0.4, 0.6, 0.2, 0.3, 0.1, 0.2];
	const scale = (level * Math.SQRT2) / Math.hypot(...shares);
	for (const [k, share] of shares.entries()) {
		const w = (2 * Math.PI * hz * (k + 1)) / sampleRateHz;
		for (let i = 0; i < out.length; i++) out[i]! += scale * share * Math.sin(w * i + k * k);
	}
}

function dropOut(samples: Float32Array, {dropouts = [], sampleRateHz}: Scene): Float32Array {
	let left = samples;
	// Last first, so that a cut does not move the ones before it.
	for (const {atS, lengthS, kind} of [...dropouts].sort((a, b) => b.atS - a.atS)) {
		const from = Math.round(atS * sampleRateHz);
		const to = Math.min(left.length, from + Math.round(lengthS * sampleRateHz));
		if (kind === 'zeros') left.fill(0, from, to);
		else left = Float32Array.from([...left.subarray(0, from), ...left.subarray(to)]);
	}

	return left;
}
