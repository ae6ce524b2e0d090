import type {PartialFit, Stretch} from './fit-partials.ts';
import {partialHz} from './partial-law.ts';
import {noiseVariance} from './phases.ts';

/** Samples lost: indices [from, to), nothing in between to be believed. */
export type Gap = readonly [from: number, to: number];

/** Silence shorter than this is chance, s. */
const shortestSilenceS = 0.0015;
/** Room left on both sides of a gap, s: the edges ring. */
const guardS = 0.001;

/**
 * Stretches where one and the same value stands for more than 1.5 ms: a
 * sounding string never does that, so samples were lost and filled up.
 *
 * @returns In order; empty when the whole is quieter than -60 dB, where a
 * converter may well stand still.
 */
export function stuckGaps(samples: Float32Array, sampleRateHz: number): readonly Gap[] {
	let power = 0;
	for (const x of samples) power += x * x;
	if (power < 1e-6 * samples.length) return [];
	const gaps: Gap[] = [];
	const shortest = Math.round(shortestSilenceS * sampleRateHz);
	const guard = Math.round(guardS * sampleRateHz);
	for (let from = 0; from < samples.length; ) {
		let to = from + 1;
		while (to < samples.length && samples[to] === samples[from]) to++;
		// A run at full scale is clipping of a loud pluck, not a loss.
		if (to - from >= shortest && Math.abs(samples[from]!) < 0.9)
			gaps.push([Math.max(0, from - guard), Math.min(samples.length, to + guard)]);
		from = to;
	}

	return gaps;
}

/**
 * Samples lost without a trace (what followed moved up): every partial's phase
 * jumps at the same moment.
 *
 * @param fit A first fit to the whole stretch, good enough to say how phases
 * should move from frame to frame.
 * @returns The worst such moment as a gap in samples of the stretch, if there is one.
 */
export function hiddenBreak({tracks, firstS}: Stretch, fit: PartialFit, sampleRateHz: number): Gap | undefined {
	const {timesS, hopS, framesPerLook} = tracks;
	// Far enough apart to share no samples, as the window is about 1.5 looks long.
	const lag = Math.ceil(1.5 * framesPerLook);
	const count = timesS.length - lag;
	if (count < 8) return undefined;
	const noise = noiseVariance(tracks);
	const trusted = new Set(fit.partials.filter(p => p.trust > 0.2).map(p => p.n));
	const jump = new Float64Array(count);
	const weight = new Float64Array(count);
	const glide = Math.expm1((fit.glideCents * Math.LN2) / 1200);
	for (const {n, referenceHz, re, im} of tracks.tracks) {
		if (!trusted.has(n)) continue;
		const hz = partialHz(fit.law, n);
		const expected = (k: number) => {
			const t = firstS + timesS[k]!;
			return 2 * Math.PI * ((hz - referenceHz) * t - hz * glide * fit.glideTimeS * Math.exp(-t / fit.glideTimeS));
		};
		for (let k = 0; k < count; k++) {
			const power = Math.min(re[k]! ** 2 + im[k]! ** 2, re[k + lag]! ** 2 + im[k + lag]! ** 2);
			if (power < 25 * noise) continue;
			const turned =
				Math.atan2(im[k + lag]!, re[k + lag]!) - Math.atan2(im[k]!, re[k]!) - expected(k + lag) + expected(k);
			const wrapped = turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI));
			const w = Math.min(power / noise, 1e4) ** 0.5;
			jump[k]! += w * wrapped ** 2;
			weight[k]! += w;
		}
	}

	const sizes = jump.map((x, k) => (weight[k]! > 0 ? x / weight[k]! : 0));
	const usual = [...sizes].sort((a, b) => a - b)[sizes.length >> 1]!;
	const worst = Math.max(...sizes);
	if (worst < Math.max(leastJumpRad ** 2, 12 * usual)) return undefined;
	// A jump shows in every pair of frames that straddles it: take the middle of those.
	const high = [...sizes.keys()].filter(k => sizes[k]! > worst / 2);
	const middle = (high[0]! + high.at(-1)!) / 2 + lag / 2;
	const atS = timesS[0]! + middle * hopS;
	const roomS = Math.max(0.008, 1.5 * hopS);
	return [Math.max(0, Math.round((atS - roomS) * sampleRateHz)), Math.round((atS + roomS) * sampleRateHz)];
}

const leastJumpRad = 0.5;
