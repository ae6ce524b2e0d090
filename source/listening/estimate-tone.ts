import {type CoarseTone, gatherTone, isListened, libraryGuessesHz, libraryPitchesHz} from './coarse-pitch.ts';
import {fitPartials, type PartialFit, type Stretch} from './fit-partials.ts';
import {type Gap, hiddenBreak, stuckGaps} from './gaps.ts';
import {firstPartialHz, type PartialLaw} from './partial-law.ts';
import {trackPartials} from './partial-tracks.ts';
import {type ToneLines, toneLines} from './tone-lines.ts';

/** A pluck, or as much of it as is there yet. */
export interface PluckSound {
	readonly samples: Float32Array;
	readonly sampleRateHz: number;
	/** Time of the first sample after the onset, s. */
	readonly sinceOnsetS: number;
	/** What rang before the onset, if that is known. */
	readonly before?: Float32Array;
	/** Where samples were lost, as indices into `samples`: [from, to), nothing in between to be believed. */
	readonly gaps?: readonly Gap[];
	/** Frequencies where a string is believed to sound; only a help in finding it among others. */
	readonly believedHz?: readonly number[];
}

/** What was heard in a pluck. */
export interface HeardTone {
	/** The first partial: what a perfect tuner would show. */
	readonly hz: number;
	readonly sdCents: number;
	/** The law of the tone as it sounds, counted from its own first partial. */
	readonly law: PartialLaw;
	readonly stiffnessSd: number;
	/** What a cheap tuner, looking for the sound's period, would have shown; undefined where it would have been lost. */
	readonly periodTunerHz?: number;
	readonly fit: PartialFit;
	/** Root mean square of the partials, full scale = 1. */
	readonly level: number;
}

export interface EstimateSettings {
	/** Quick and coarse, for a moving picture; or careful, for a reading. */
	readonly care: 'quick' | 'careful';
}

/** The pitch of a pluck; undefined when nothing like a string is heard. */
export function estimateTone(sound: PluckSound, {care}: EstimateSettings = {care: 'careful'}): HeardTone | undefined {
	const {samples, sampleRateHz, before, believedHz = []} = sound;
	const known = [...(sound.gaps ?? []), ...stuckGaps(samples, sampleRateHz)];
	const longest = longestStretch(samples, known);
	if (longest.length < 0.12 * sampleRateHz) return undefined;
	const lines = toneLines(longest.subarray(0, Math.round(0.45 * sampleRateHz)), before, sampleRateHz);
	const guesses = [...libraryGuessesHz(longest, sampleRateHz), ...believedHz, ...strongGuesses(lines)];
	const coarse = bestTone(lines, guesses);
	if (!coarse) return undefined;

	const first = fitAround({...sound, gaps: known}, lines, coarse, 'quick');
	if (!first) return undefined;
	const gaps = [...known, ...hiddenBreaks(first, sampleRateHz)];
	const fit =
		care === 'careful'
			? (fitAround({...sound, gaps}, lines, {...coarse, law: first.fit.law}, 'careful')?.fit ?? first.fit)
			: first.fit;
	const period = libraryPitchesHz(samples, sampleRateHz);
	const near = period.filter(hz => Math.abs(Math.log2(hz / firstPartialHz(fit.law))) < 1 / 12);
	return {
		hz: firstPartialHz(fit.law),
		sdCents: fit.sdCents,
		law: fit.law,
		stiffnessSd: fit.stiffnessSd,
		...(near.length > 0 ? {periodTunerHz: near.sort((a, b) => a - b)[near.length >> 1]!} : {}),
		fit,
		level: Math.sqrt(fit.partials.reduce((sum, p) => sum + p.amplitude ** 2 / 2, 0)),
	};
}

/** Stretches between gaps, as indices [from, to). */
function stretchesBetween(samples: Float32Array, gaps: readonly Gap[]): readonly Gap[] {
	const stretches: Gap[] = [];
	let from = 0;
	for (const [gapFrom, gapTo] of [...gaps].sort((a, b) => a[0] - b[0])) {
		if (gapFrom > from) stretches.push([from, gapFrom]);
		from = Math.max(from, gapTo);
	}

	if (from < samples.length) stretches.push([from, samples.length]);
	return stretches;
}

function longestStretch(samples: Float32Array, gaps: readonly Gap[]): Float32Array {
	const [from, to] = stretchesBetween(samples, gaps).reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a), [0, 0]);
	return samples.subarray(from, to);
}

/** Moments where samples went missing unmarked, as gaps in the samples of the pluck. */
function hiddenBreaks({fit, stretches}: Fitted, sampleRateHz: number): readonly Gap[] {
	return stretches.flatMap(({stretch, from}) => {
		const found = hiddenBreak(stretch, fit, sampleRateHz);
		return found ? [[found[0] + from, found[1] + from] as const] : [];
	});
}

/** The strongest lines, each taken as partial 1, 2, 3 or 4 of a tone. */
function strongGuesses({lines}: ToneLines): readonly number[] {
	const strong = [...lines].sort((a, b) => b.amplitude - a.amplitude).slice(0, 4);
	return strong.flatMap(({hz}) => [hz, hz / 2, hz / 3, hz / 4]).filter(isListened);
}

/** Share of the best explained power that a higher pitch may leave unexplained and still be preferred. */
const spared = 0.12;

/**
 * The tone that explains the lines: of all guesses the highest that explains
 * nearly as much as any. An octave too low explains everything that the right
 * one does, so explaining most is not enough.
 */
function bestTone({lines, lineHalfWidthHz}: ToneLines, guessesHz: readonly number[]): CoarseTone | undefined {
	const tones: CoarseTone[] = [];
	let last = 0;
	for (const hz of [...guessesHz].sort((a, b) => a - b)) {
		// Guesses within 8 cents lead to the same tone.
		if (hz < last * 1.005) continue;
		last = hz;
		const tone = gatherTone(lines, hz, lineHalfWidthHz);
		if (tone.numbers.length > 0 && isListened(firstPartialHz(tone.law))) tones.push(tone);
	}

	const most = Math.max(0, ...tones.map(t => t.explained));
	if (most === 0) return undefined;
	return tones
		.filter(t => t.explained >= (1 - spared) * most)
		.reduce((a, b) => (firstPartialHz(b.law) > firstPartialHz(a.law) ? b : a));
}

/** Highest frequency used: above it partials are weak, short and dense. */
const highestHz = 5500;
const mostPartials = 30;

interface Fitted {
	readonly fit: PartialFit;
	readonly stretches: readonly {readonly stretch: Stretch; readonly from: number}[];
}

function fitAround(
	sound: PluckSound,
	lines: ToneLines,
	{law, numbers}: CoarseTone,
	care: 'quick' | 'careful',
): Fitted | undefined {
	const {samples, sampleRateHz, sinceOnsetS, gaps = []} = sound;
	const top = Math.min(mostPartials, Math.max(4, (numbers.at(-1) ?? 1) + 2), Math.floor(highestHz / law.idealHz));
	const count = care === 'quick' ? Math.min(12, top) : top;
	const partials = Array.from({length: 2 * count}, (_, i) => 1 + i / 2);
	const stretches = stretchesBetween(samples, gaps).map(([from, to]) => ({
		stretch: {
			tracks: trackPartials(samples.subarray(from, to), sampleRateHz, law, partials),
			firstS: sinceOnsetS + from / sampleRateHz,
		},
		from,
	}));
	const settings = {
		clearings: care === 'quick' ? 0 : 2,
		beside: besideOf(lines, stretches[0]?.stretch.tracks.tracks ?? []),
	};
	const fit = fitPartials(
		stretches.map(s => s.stretch),
		law,
		settings,
	);
	return fit && {fit, stretches};
}

/** Share of each partial that rang there before; none if nearly all of them did: then it was this same string. */
function besideOf(
	lines: ToneLines,
	tracks: readonly {
		readonly n: number;
		readonly referenceHz: number;
		readonly re: Float64Array;
		readonly im: Float64Array;
	}[],
): (n: number) => number {
	const shares = new Map(
		tracks
			.filter(t => Number.isInteger(t.n))
			.map(({n, referenceHz, re, im}) => {
				const middle = re.length >> 1;
				return [n, lines.before(referenceHz) / Math.max(1e-9, Math.hypot(re[middle] ?? 0, im[middle] ?? 0))] as const;
			}),
	);
	const felt = [...shares.values()].filter(share => share > 0.05).length;
	return felt > 0.7 * shares.size ? () => 0 : n => 0.7 * Math.min(1, shares.get(n) ?? 0);
}
