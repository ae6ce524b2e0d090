import {fromMidi, fromMidiSharps, get} from '@tonaljs/note';

/** A pitch by name. */
export interface Note {
	/** Scientific pitch name with one accidental at most, `F#2`, `Bb3`. */
	readonly name: string;
	/** Semitones, A4 = 69, C4 = 60; 12 (C0) to 127 (G9). */
	readonly midi: number;
}

/** A pitch name without its octave, as many tuners show it. */
export interface PitchClass {
	/** `E`, `F#`, `Bb`. */
	readonly name: string;
	/** Semitones above C, 0 to 11. */
	readonly chroma: number;
}

// One accidental at most: a tuner shows no double sharps, and `bb1` is then surely B flat.
const notePattern = /^([A-G])([#b]?)(\d)$/;
const classPattern = /^([A-G])([#b]?)$/;

/**
 * Reads a note name with its octave, in either case: `E2`, `f#2`, `eb4`, `bb1`.
 *
 * @returns `undefined` if it is none, or lies outside C0 to G9.
 */
export function parseNote(text: string): Note | undefined {
	const name = capitalised(text);
	if (!notePattern.test(name)) {
		return undefined;
	}

	const {midi} = get(name);
	// Cb0 names a pitch below C0: nothing that a string sounds.
	return midi === null || midi < 12 ? undefined : {name, midi};
}

/** Reads a note name without an octave, in either case: `E`, `f#`, `bb`. */
export function parsePitchClass(text: string): PitchClass | undefined {
	const name = capitalised(text);
	return classPattern.test(name) ? {name, chroma: get(name).chroma} : undefined;
}

/**
 * Name of a semitone: `noteName(42)` is `F#2`, `noteName(42, 'flats')` is `Gb2`.
 *
 * @param midi Whole, 12 (C0) to 127 (G9).
 * @throws {RangeError} If it is not.
 */
export function noteName(midi: number, spelling: 'sharps' | 'flats' = 'sharps'): string {
	if (!Number.isInteger(midi) || midi < 12 || midi > 127) {
		throw new RangeError(`noteName: expected midi to be a whole number from 12 to 127, got ${midi}`);
	}

	return spelling === 'sharps' ? fromMidiSharps(midi) : fromMidi(midi);
}

/** The note of that class whose pitch is nearest to `midi` (which need not be whole); the lower of two equally near. */
export function nearestNote({name, chroma}: PitchClass, midi: number): Note {
	const octaves = Math.ceil((midi - chroma) / 12 - 0.5);
	const nearest = chroma + 12 * octaves;
	// Cb and B# are written with the octave of their letter, not of their sound.
	const octave = octaves - 1 + (name === 'Cb' ? 1 : name === 'B#' ? -1 : 0);
	return {name: `${name}${octave}`, midi: nearest};
}

function capitalised(text: string): string {
	const trimmed = text.trim();
	return trimmed.charAt(0).toUpperCase() + trimmed.slice(1);
}
