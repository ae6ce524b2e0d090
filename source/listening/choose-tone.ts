import {type CoarseTone, gatherTone, isListened, libraryGuessesHz} from './coarse-pitch.ts';
import {firstPartialHz} from './partial-law.ts';
import type {ToneLines} from './tone-lines.ts';

/** Share of the best explained power that a higher pitch may leave unexplained and still be preferred. */
export const spared = 0.12;
/** Guesses nearer to each other than this (8 cents) lead to the same tone. */
const sameGuess = 1.005;

/**
 * The tone that explains the lines: of all guesses the highest that explains
 * nearly as much as any. An octave too low explains everything that the right
 * one does, so explaining most is not enough.
 */
export function chooseTone(
	samples: Float32Array,
	sampleRateHz: number,
	found: ToneLines,
	believedHz: readonly number[],
): CoarseTone | undefined {
	const guesses = [...libraryGuessesHz(samples, sampleRateHz), ...believedHz, ...strongGuesses(found)].sort(
		(a, b) => a - b,
	);
	const tones: CoarseTone[] = [];
	let last = 0;
	for (const hz of guesses) {
		if (hz < last * sameGuess) continue;
		last = hz;
		const tone = gatherTone(found.lines, hz, found.lineHalfWidthHz);
		if (tone.numbers.length > 0 && isListened(firstPartialHz(tone.law))) tones.push(tone);
	}

	const most = Math.max(0, ...tones.map(t => t.explained));
	if (most === 0) return undefined;
	return tones
		.filter(t => t.explained >= (1 - spared) * most)
		.reduce((a, b) => (firstPartialHz(b.law) > firstPartialHz(a.law) ? b : a));
}

/** The strongest lines, each taken as partial 1, 2, 3 or 4 of a tone. */
function strongGuesses({lines}: ToneLines): readonly number[] {
	const strong = [...lines].sort((a, b) => b.amplitude - a.amplitude).slice(0, 4);
	return strong.flatMap(({hz}) => [hz, hz / 2, hz / 3, hz / 4]).filter(isListened);
}
