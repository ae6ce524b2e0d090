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
 * Samples lost without a trace (what followed moved up): at one moment the
 * phases of all partials jump, each in proportion to its frequency.
 *
 * @param fit A first fit to the whole stretch, good enough to say how phases
 * should move from frame to frame.
 * @returns The worst such moment as a gap in samples of the stretch, if there is one.
 */
export function hiddenBreak(stretch: Stretch, fit: PartialFit, sampleRateHz: number): Gap | undefined {
	const {timesS, hopS, framesPerLook} = stretch.tracks;
	// Far enough apart to share no samples, as the window is about 1.5 looks long.
	const lag = Math.ceil(1.5 * framesPerLook);
	const count = timesS.length - lag;
	if (count < 8) return undefined;
	const partials = turnsOf(stretch, fit, lag, count);
	const jumps = Array.from({length: count}, (_, k) => jumpAt(partials, k, fit.law.idealHz));
	const gains = jumps.map(j => j.gain);
	const usual = [...gains].sort((a, b) => a - b)[count >> 1]!;
	const at = jumps.reduce((a, j, k) => (j.gain > jumps[a]!.gain ? k : a), 0);
	const {gain: worst, agreement} = jumps[at]!;
	if (worst < Math.max(leastGain, 6 * usual) || agreement < (worst > plainGain ? plainAgreement : leastAgreement))
		return undefined;
	// A jump shows in every pair of frames that straddles it: take the middle of those.
	const high = [...gains.keys()].filter(k => gains[k]! > worst / 2);
	const middle = (high[0]! + high.at(-1)!) / 2 + lag / 2;
	const atS = timesS[0]! + middle * hopS;
	const roomS = Math.max(0.008, 1.5 * hopS);
	return [Math.max(0, Math.round((atS - roomS) * sampleRateHz)), Math.round((atS + roomS) * sampleRateHz)];
}

/** How much better a lost time must explain the phases at a moment than nothing lost, 0 to 2. */
const leastGain = 0.12;
/** A gain that leaves no doubt, even if some partials are bent by others. */
const plainGain = 0.5;

/** How a trusted partial turns from one frame to the one after next to none shared, beyond what is expected and what it does before and after; weight 0 where it is too weak. */
interface Turns {
	readonly hz: number;
	readonly rad: Float64Array;
	readonly weight: Float64Array;
}

function turnsOf({tracks, firstS}: Stretch, fit: PartialFit, lag: number, count: number): readonly Turns[] {
	const noise = noiseVariance(tracks);
	const trusted = new Set(fit.partials.filter(p => p.trust > 0.2).map(p => p.n));
	const glide = Math.expm1((fit.glideCents * Math.LN2) / 1200);
	return tracks.tracks
		.filter(track => trusted.has(track.n))
		.map(({n, referenceHz, re, im}) => {
			const hz = partialHz(fit.law, n);
			const expected = (k: number) => {
				const t = firstS + tracks.timesS[k]!;
				return 2 * Math.PI * ((hz - referenceHz) * t - hz * glide * fit.glideTimeS * Math.exp(-t / fit.glideTimeS));
			};
			const turned = Float64Array.from({length: count}, (_, k) => {
				const to = k + lag;
				return Math.atan2(im[to]!, re[to]!) - Math.atan2(im[k]!, re[k]!) - expected(to) + expected(k);
			});
			const rad = turned.map((turn, k) => {
				// The fit may have bent its glide to swallow a jump; then it is wrong on both sides of it.
				const around = [k - lag, k + lag].filter(other => other >= 0 && other < count);
				return around.reduce((sum, other) => sum + wrapped(turn - turned[other]!), 0) / Math.max(1, around.length);
			});
			const weight = turned.map((_, k) => {
				const power = Math.min(re[k]! ** 2 + im[k]! ** 2, re[k + lag]! ** 2 + im[k + lag]! ** 2);
				return power < 25 * noise ? 0 : Math.min(power / noise, 1e4) ** 0.25;
			});
			return {hz, rad, weight};
		});
}

/** How well one lost time explains the turns at frame `k` (mean cosine of what is left, 1 = wholly), and how much better than none does. */
function jumpAt(
	partials: readonly Turns[],
	k: number,
	idealHz: number,
): {readonly gain: number; readonly agreement: number} {
	const total = partials.reduce((sum, p) => sum + p.weight[k]!, 0);
	if (total === 0) return {gain: 0, agreement: 0};
	const agreementAt = (lostS: number) =>
		partials.reduce((sum, p) => sum + p.weight[k]! * Math.cos(p.rad[k]! - 2 * Math.PI * p.hz * lostS), 0) / total;
	const nothing = agreementAt(0);
	let agreement = nothing;
	// Losses of whole periods look alike, so half a period either way holds all.
	for (let step = -40; step <= 40; step++) agreement = Math.max(agreement, agreementAt(step / 80 / idealHz));
	return {gain: agreement - nothing, agreement};
}

/** Partials that beat turn too, but not together. */
const leastAgreement = 0.9;
const plainAgreement = 0.75;

/** To within half a turn. */
function wrapped(rad: number): number {
	return rad - 2 * Math.PI * Math.round(rad / (2 * Math.PI));
}
