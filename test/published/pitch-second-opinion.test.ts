import {freq} from '@tonaljs/note';
import {note as teoriaNote} from 'teoria';
import {describe, expect, test} from 'vitest';
import {noteName, parseNote} from '../../source/music/note.ts';
import {centsBetween, frequencyHz} from '../../source/music/pitch.ts';

/**
 * Names come from `@tonaljs/note`, pitches from our own formula. Second
 * opinion on both: `teoria`, another author's code that shares none with it.
 * Third, on pitches alone: the frequency function of `@tonaljs/note`, which
 * we do not use. Tolerance 1e-9 cents: both compute in double precision.
 */
const keys = Array.from({length: 108 - 12 + 1}, (_, index) => index + 12);
const names = keys.flatMap(midi => [...new Set([noteName(midi), noteName(midi, 'flats')])]);

test('C0 to C8 in both spellings are 97 semitones and 137 names', () => {
	expect(keys).toHaveLength(97);
	expect(names).toHaveLength(137);
	expect(names.at(0)).toBe('C0');
	expect(names.at(-1)).toBe('C8');
});

describe.each(names)('%s', name => {
	test('same pitch and same key as the other library says', () => {
		const other = teoriaNote(name);
		expect(Math.abs(centsBetween(frequencyHz(name), other.fq()))).toBeLessThan(1e-9);
		expect(parseNote(name)?.midi).toBe(other.midi());
		expect(Math.abs(centsBetween(frequencyHz(name), freq(name)!))).toBeLessThan(1e-9);
	});

	test('same pitch at another reference A', () => {
		expect(Math.abs(centsBetween(frequencyHz(name, 432), teoriaNote(name).fq(432)))).toBeLessThan(1e-9);
	});
});
