import {type PartialLaw, partialHz} from '../../../source/listening/partial-law.ts';
import type {Rng} from '../../../source/numeric/rng.ts';
import {between, betweenLog} from './draw.ts';

/** A plucked tone as the synthesiser makes it; every number is hidden from the listener. */
export interface SyntheticTone {
	readonly law: PartialLaw;
	/** Root mean square over its first half second, full scale = 1. */
	readonly level: number;
	/** Where it is plucked and picked up, share of the sounding length, 0 to 0.5. */
	readonly pluckShare: number;
	readonly pickupShare: number;
	/** Amplitudes fall as n^-tilt. */
	readonly tilt: number;
	/** Amplitude decay of the first partial, 1/s. */
	readonly decayPerS: number;
	/** Extra decay of a partial at 1 kHz, 1/s; grows with frequency to the power 1.5. */
	readonly brightDecayPerS: number;
	/** Sharp at the attack by this much, gone as e^(-t/τ). */
	readonly glideCents: number;
	readonly glideTimeS: number;
	/** Strength of the plectrum's noise, share of the level; 0 for strings that only ring along. */
	readonly pickNoise: number;
	/** A harmonic touched badly: partials between (half-integer n) at this share; 0 for none. */
	readonly leak: number;
	/** A peg turned while it rings: pitch goes by this much, evenly, between two times after the onset. */
	readonly turned?: {readonly fromS: number; readonly toS: number; readonly cents: number};
}

/** One decaying sinusoid of a tone. */
export interface SyntheticPartial {
	readonly n: number;
	readonly hz: number;
	readonly amplitude: number;
	readonly decayPerS: number;
	readonly phase: number;
}

/** A tone of this law with everything else drawn over what guitars do (common practice, no source). */
export function drawTone(
	rng: Rng,
	law: PartialLaw,
	level: number,
	changes: Partial<SyntheticTone> = {},
): SyntheticTone {
	return {
		law,
		level,
		pluckShare: between(rng, 0.08, 0.35),
		pickupShare: between(rng, 0.06, 0.28),
		tilt: between(rng, 0.6, 1.4),
		decayPerS: betweenLog(rng, 0.5, 2.5),
		brightDecayPerS: betweenLog(rng, 0.5, 4),
		glideCents: between(rng, 5, 15),
		glideTimeS: 0.15 * Math.exp(0.2 * rng.normal()),
		pickNoise: between(rng, 0.1, 0.5),
		leak: 0,
		...changes,
	};
}

/** The partials of a tone, amplitudes scaled to its level. Phases are drawn. */
export function partialsOf(rng: Rng, tone: SyntheticTone, sampleRateHz: number): readonly SyntheticPartial[] {
	const step = tone.leak > 0 ? 0.5 : 1;
	const raw: SyntheticPartial[] = [];
	for (let n = step; n <= 60; n += step) {
		const hz = partialHz(tone.law, n);
		if (hz > Math.min(0.45 * sampleRateHz, 12_000)) break;
		const shape = Math.abs(Math.sin(Math.PI * n * tone.pluckShare) * Math.sin(Math.PI * n * tone.pickupShare));
		const softness = Math.exp(-((hz / 4000) ** 2));
		const share = Number.isInteger(n) ? 1 : tone.leak;
		raw.push({
			n,
			hz,
			amplitude: (share * shape * softness) / n ** tone.tilt,
			decayPerS: tone.decayPerS + tone.brightDecayPerS * (hz / 1000) ** 1.5,
			phase: between(rng, -Math.PI, Math.PI),
		});
	}

	// Mean square over the first half second, partial by partial: A²/2 · (1 - e^(-2αT)) / 2αT.
	const meanSquare = raw.reduce(
		(sum, p) => sum + (p.amplitude ** 2 / 2) * ((1 - Math.exp(-p.decayPerS)) / p.decayPerS),
		0,
	);
	const scale = tone.level / Math.sqrt(meanSquare);
	return raw.map(p => ({...p, amplitude: p.amplitude * scale})).filter(p => p.amplitude > 1e-4 * tone.level);
}

/**
 * Adds a tone to `out` from `startS` until `endS` (damped there within 10 ms).
 * Between anchor points 32 samples apart the glide is taken as linear, which
 * is wrong by less than a thousandth of a radian.
 */
export function addTone(
	out: Float64Array,
	sampleRateHz: number,
	tone: SyntheticTone,
	partials: readonly SyntheticPartial[],
	{startS, endS}: {readonly startS: number; readonly endS: number},
): void {
	const first = Math.max(0, Math.round(startS * sampleRateHz));
	const last = Math.min(out.length, Math.round((endS + 0.03) * sampleRateHz));
	const glide = 2 ** (tone.glideCents / 1200) - 1;
	const warped = (t: number) =>
		t - glide * tone.glideTimeS * Math.expm1(-t / tone.glideTimeS) + turnedTime(tone.turned, t);
	const envelope = new Float64Array(Math.max(0, last - first));
	for (let i = 0; i < envelope.length; i++) {
		const t = (first + i) / sampleRateHz - startS;
		const rise = tone.pickNoise > 0 ? Math.min(1, t / 0.002) : Math.min(1, t / 0.05);
		const fall = t > endS - startS ? Math.exp(-(t - (endS - startS)) / 0.005) : 1;
		envelope[i] = Math.max(0, rise) * fall;
	}

	const block = 32;
	for (const p of partials) {
		const w = 2 * Math.PI * p.hz;
		const fall = Math.exp(-p.decayPerS / sampleRateHz);
		for (let from = first; from < last; from += block) {
			const t = from / sampleRateHz - startS;
			const amplitude = p.amplitude * Math.exp(-p.decayPerS * t);
			if (amplitude < 1e-5 * tone.level) break;
			const turn = (w * (warped(t + block / sampleRateHz) - warped(t))) / block;
			const c = Math.cos(turn) * fall;
			const s = Math.sin(turn) * fall;
			let re = amplitude * Math.cos(w * warped(t) + p.phase);
			let im = amplitude * Math.sin(w * warped(t) + p.phase);
			const to = Math.min(last, from + block);
			for (let i = from; i < to; i++) {
				out[i]! += re * envelope[i - first]!;
				[re, im] = [re * c - im * s, re * s + im * c];
			}
		}
	}
}

/** Integral of the relative change of frequency by a turned peg. */
function turnedTime(turned: SyntheticTone['turned'], t: number): number {
	if (!turned || t <= turned.fromS) return 0;
	const {fromS, toS, cents} = turned;
	const relative = 2 ** (cents / 1200) - 1;
	const during = Math.min(t, toS) - fromS;
	return relative * (during ** 2 / (2 * (toS - fromS)) + Math.max(0, t - toS));
}

/** The plectrum's scratch: noise that dies within some 6 ms. */
export function addPickNoise(
	rng: Rng,
	out: Float64Array,
	sampleRateHz: number,
	tone: SyntheticTone,
	startS: number,
): void {
	const first = Math.round(startS * sampleRateHz);
	const length = Math.round(0.03 * sampleRateHz);
	for (let i = 0; i < length && first + i < out.length; i++) {
		const t = i / sampleRateHz;
		out[first + i]! +=
			tone.pickNoise * tone.level * 3 * between(rng, -1, 1) * Math.min(1, t / 0.001) * Math.exp(-t / 0.006);
	}
}
