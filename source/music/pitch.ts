import {parseNote} from './note.ts';

/** Hertz of A4 that a person may choose, both ends included. */
export const referenceARangeHz = [400, 480] as const;

/** A4 unless told otherwise: 440 Hz, ISO 16:1975. */
export const standardAHz = 440;

/**
 * Pitch of a note in twelve equal steps to the octave.
 *
 *     f = A4 · 2^((m − 69) / 12)
 *
 * @param note Semitones with A4 = 69 (fractions allowed), or a name like `E2`.
 * @param referenceAHz Pitch of A4, 400 to 480 Hz.
 * @returns Hertz.
 * @throws {RangeError} If the name is no note, or a number is out of range.
 * @see ISO 16:1975 for A4 = 440 Hz.
 */
export function frequencyHz(note: number | string, referenceAHz: number = standardAHz): number {
	const [lowest, highest] = referenceARangeHz;
	if (!(referenceAHz >= lowest && referenceAHz <= highest)) {
		throw new RangeError(`frequencyHz: expected referenceAHz from ${lowest} to ${highest}, got ${referenceAHz}`);
	}

	const midi = typeof note === 'number' ? note : parseNote(note)?.midi;
	if (midi === undefined || !Number.isFinite(midi)) {
		throw new RangeError(`frequencyHz: expected note to be a note like E2 or a finite number, got ${note}`);
	}

	return referenceAHz * 2 ** ((midi - 69) / 12);
}

/** Inverse of `frequencyHz`: semitones with A4 = 69, rarely whole. Both positive, hertz. */
export function midiFromHz(hz: number, referenceAHz: number = standardAHz): number {
	return 69 + centsBetween(hz, referenceAHz) / 100;
}

/**
 * Interval from `referenceHz` up to `hz`, cents: 1200 log2 of their ratio.
 *
 * @returns Positive when `hz` is sharp of the reference.
 * @throws {RangeError} If either is not positive and finite.
 */
export function centsBetween(hz: number, referenceHz: number): number {
	requirePositive('centsBetween', {hz, referenceHz});
	return 1200 * Math.log2(hz / referenceHz);
}

/**
 * The pitch that stands `cents` above `referenceHz` (below, if negative), hertz.
 *
 * @throws {RangeError} If `referenceHz` is not positive and finite, or `cents` not finite.
 */
export function hzFromCents(cents: number, referenceHz: number): number {
	requirePositive('hzFromCents', {referenceHz});
	if (!Number.isFinite(cents)) {
		throw new RangeError(`hzFromCents: expected cents to be finite, got ${cents}`);
	}

	return referenceHz * 2 ** (cents / 1200);
}

function requirePositive(caller: string, numbers: Readonly<Record<string, number>>): void {
	for (const [name, value] of Object.entries(numbers)) {
		if (!(value > 0 && Number.isFinite(value))) {
			throw new RangeError(`${caller}: expected ${name} to be positive and finite, got ${value}`);
		}
	}
}

/** Cents per unit of natural logarithm: a small relative change of frequency times this is its size in cents. */
export const centsPerLog = 1200 / Math.LN2;
