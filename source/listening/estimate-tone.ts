import {centsBetween} from '../music/pitch.ts';
import {chooseTone} from './choose-tone.ts';
import {libraryPitchesHz} from './coarse-pitch.ts';
import type {PartialFit} from './fit-partials.ts';
import {type Care, fitSound, hiddenBreaks} from './fit-sound.ts';
import {stuckGaps} from './gaps.ts';
import {octaveChecked} from './octave-check.ts';
import {firstPartialHz, type PartialLaw} from './partial-law.ts';
import {longestStretch, type PluckSound} from './pluck-sound.ts';
import {toneLines} from './tone-lines.ts';

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
	/** Places where samples were lost. */
	readonly breaks: number;
}

/** Shorter than this nothing is heard, s. */
const shortestS = 0.12;
/** The lines of a pluck are taken from its first stretch: long enough to part them, short enough that they have not died, s. */
const linesS = 0.45;

/** The pitch of a pluck; undefined when nothing like a string is heard. */
export function estimateTone(sound: PluckSound, care: Care = 'careful'): HeardTone | undefined {
	const {samples, sampleRateHz, before, believedHz = []} = sound;
	const known = [...(sound.gaps ?? []), ...stuckGaps(samples, sampleRateHz)];
	const longest = longestStretch(samples, known);
	if (longest.length < shortestS * sampleRateHz) return undefined;
	const lines = toneLines(longest.subarray(0, Math.round(linesS * sampleRateHz)), before, sampleRateHz);
	const coarse = chooseTone(longest, sampleRateHz, lines, believedHz);
	if (!coarse) return undefined;

	const whole = {...sound, gaps: known};
	const fitted = fitSound(whole, lines, coarse, 'quick');
	if (!fitted) return undefined;
	const first = octaveChecked(whole, lines, fitted);
	const gaps = [...known, ...hiddenBreaks(first, sampleRateHz)];
	const start = {law: first.fit.law, numbers: first.start.numbers};
	const {fit} = (care === 'careful' && fitSound({...sound, gaps}, lines, start, 'careful')) || first;
	const hz = firstPartialHz(fit.law);
	const periodTunerHz = periodNear(longest, sampleRateHz, hz);
	return {
		hz,
		sdCents: fit.sdCents,
		law: fit.law,
		stiffnessSd: fit.stiffnessSd,
		...(periodTunerHz === undefined ? {} : {periodTunerHz}),
		fit,
		level: Math.sqrt(fit.partials.reduce((sum, p) => sum + p.amplitude ** 2 / 2, 0)),
		breaks: gaps.length,
	};
}

/** Median of the library's pitches within a semitone of the truth: what a tuner that looks for the period settles on. */
function periodNear(samples: Float32Array, sampleRateHz: number, hz: number): number | undefined {
	const near = libraryPitchesHz(samples, sampleRateHz)
		.filter(pitch => Math.abs(centsBetween(pitch, hz)) < 100)
		.sort((a, b) => a - b);
	return near[near.length >> 1];
}
