import {PitchDetector} from 'pitchy';
import {type PartialLaw, partialHz} from './partial-law.ts';
import type {Peak} from './spectrum.ts';

/** Lowest and highest first partial listened for: a tone below the eighth string's F#1, and the 12th fret of a high first string. */
export const listenedHz = [35, 1000] as const;

/**
 * First guesses at the pitch from a kept library (the McLeod pitch method on
 * frames of about 93 ms, four periods of the lowest string), with the octaves
 * and fifths that such methods confuse it with. May be empty.
 */
export function libraryGuessesHz(samples: Float32Array, sampleRateHz: number): readonly number[] {
	const heard = libraryPitchesHz(samples, sampleRateHz);
	return heard.flatMap(hz => [hz, 2 * hz, hz / 2, 3 * hz, hz / 3, 4 * hz, hz / 4]).filter(isListened);
}

/** The library's pitch of each successive frame that it is clear about. */
export function libraryPitchesHz(samples: Float32Array, sampleRateHz: number, frame = 4096): readonly number[] {
	const detector = PitchDetector.forFloat32Array(frame);
	const pitches: number[] = [];
	for (let from = 0; from + frame <= samples.length; from += frame) {
		const [hz, clarity] = detector.findPitch(samples.subarray(from, from + frame), sampleRateHz);
		if (clarity > 0.6 && hz > 0) pitches.push(hz);
	}

	return pitches;
}

export function isListened(hz: number): boolean {
	return hz >= listenedHz[0] && hz <= listenedHz[1];
}

export interface CoarseTone {
	readonly law: PartialLaw;
	/** Share of the power of all lines that lies on this tone's partials, 0 to 1. */
	readonly explained: number;
	/** Partials that have a line. */
	readonly numbers: readonly number[];
}

/** Stiffness coefficients to start from: guitar strings lie between 1e-5 and 5e-4 (physics of wire; fretted at the 12th four times the open string's). */
const startingStiffness = [1e-5, 8e-5, 2e-4, 5e-4, 1.2e-3] as const;
const stiffest = 2.4e-3;

/**
 * Lines gathered into one tone: starts at a guess, takes the partials upwards
 * one by one, and after each refits pitch and stiffness to those taken, so
 * that the next is looked for in the right place. Done from several
 * stiffnesses, because one line wrongly taken early leads the rest astray; the
 * law that the lines lie on best wins.
 *
 * @param lines With the power that came with this pluck (squared amplitudes).
 */
export function gatherTone(lines: readonly Peak[], guessHz: number, lineHalfWidthHz: number): CoarseTone {
	const tries = startingStiffness.map(stiffness => gatherFrom(lines, {idealHz: guessHz, stiffness}, lineHalfWidthHz));
	return tries.reduce((a, b) => (b.fitting > a.fitting ? b : a));
}

function gatherFrom(
	lines: readonly Peak[],
	start: PartialLaw,
	lineHalfWidthHz: number,
): CoarseTone & {readonly fitting: number} {
	const total = lines.reduce((sum, l) => sum + l.amplitude ** 2, 0);
	let law = start;
	let taken: Taken[] = [];
	const top = lines.at(-1)?.hz ?? 0;
	const take = (n: number, reachHz: number) => {
		const line = strongestNear(lines, partialHz(law, n), Math.min(reachHz, 0.25 * law.idealHz));
		if (line && taken.at(-1)?.line !== line) taken.push({n, line});
	};

	for (let n = 1; n <= highestPartial && partialHz(law, n) < top + lineHalfWidthHz; n++) {
		// The guess may be out by 40 cents; later ones only by what stiffness can do beyond the last.
		take(n, Math.max(0.75 * lineHalfWidthHz, (taken.length < 2 ? 0.024 : 0.008) * partialHz(law, n)));
		law = lawThrough(taken, law, n >= stiffFrom);
	}

	// Once more around the law found: a line counts if it lies where the law puts it, not because it was met on the way.
	const off = ({n, line}: Taken) => Math.abs(line.hz - partialHz(law, n)) / lineHalfWidthHz;
	for (const within of [1, 0.5, 0.5]) {
		law = lawThrough(
			taken.filter(t => off(t) < within),
			law,
			true,
		);
		taken = [];
		for (let n = 1; n <= highestPartial && partialHz(law, n) < top + lineHalfWidthHz; n++)
			take(n, within * lineHalfWidthHz);
	}

	const power = taken.reduce((sum, t) => sum + t.line.amplitude ** 2, 0);
	// Square roots of amplitudes, so that the many weak partials have their say about stiffness.
	const fitting = taken.reduce((sum, t) => sum + Math.sqrt(t.line.amplitude) / (1 + (off(t) / placedWithin) ** 2), 0);
	return {law, explained: total > 0 ? power / total : 0, numbers: taken.map(t => t.n), fitting};
}

/** Higher partials are not looked for. */
const highestPartial = 40;
/** Below this partial stiffness hardly shows, and one line wrongly taken would be read as stiffness. */
const stiffFrom = 8;

/** How well lines are placed, in half widths, while the attack still glides. */
const placedWithin = 0.12;

interface Taken {
	readonly n: number;
	readonly line: Peak;
}

function strongestNear(lines: readonly Peak[], hz: number, reachHz: number): Peak | undefined {
	let best: Peak | undefined;
	for (const line of lines) {
		if (Math.abs(line.hz - hz) > reachHz) continue;
		if (!best || line.amplitude * nearness(line, hz, reachHz) > best.amplitude * nearness(best, hz, reachHz))
			best = line;
	}

	return best;
}

function nearness(line: Peak, hz: number, reachHz: number): number {
	return 1 - (0.7 * Math.abs(line.hz - hz)) / reachHz;
}

/**
 * Least squares of (f_n / n)² = f₀² + f₀² B n², linear in f₀² and f₀² B,
 * weighted by amplitude and by n (a line is placed equally well in Hz); with
 * the stiffness of `previous` kept where it cannot be told.
 */
function lawThrough(taken: readonly Taken[], previous: PartialLaw, isStiffnessFree: boolean): PartialLaw {
	if (taken.length === 0) return previous;
	let [s0, s1, s2, t0, t1] = [0, 0, 0, 0, 0];
	for (const {n, line} of taken) {
		const w = n ** 2 * Math.sqrt(line.amplitude);
		const x = n ** 2;
		const y = (line.hz / n) ** 2;
		s0 += w;
		s1 += w * x;
		s2 += w * x * x;
		t0 += w * y;
		t1 += w * x * y;
	}

	if (isStiffnessFree && taken.length >= 4) {
		const determinant = s0 * s2 - s1 * s1;
		const square = (s2 * t0 - s1 * t1) / determinant;
		const stiffness = (s0 * t1 - s1 * t0) / determinant / square;
		if (stiffness >= 0 && stiffness < stiffest) return {idealHz: Math.sqrt(square), stiffness};
	}

	// Too few, or nonsense: only the pitch is fitted.
	const {stiffness} = previous;
	return {idealHz: Math.sqrt(t0 / (s0 + stiffness * s1)), stiffness};
}
