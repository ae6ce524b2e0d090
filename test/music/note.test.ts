import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {nearestNote, noteName, parseNote, parsePitchClass} from '../../source/music/note.ts';

describe('parseNote() reads a name with its octave', () => {
	test.each([
		['E2', 'E2', 40],
		['e2', 'E2', 40],
		['f#2', 'F#2', 42],
		['Bb1', 'Bb1', 34],
		['bb1', 'Bb1', 34],
		['b1', 'B1', 35],
		[' A4 ', 'A4', 69],
		['Cb4', 'Cb4', 59],
	])('%j is %s', (text, name, midi) => {
		expect(parseNote(text)).toEqual({name, midi});
	});

	test.each(['', 'E', 'H2', 'E22', 'E-1', 'E##2', 'Bbb2', '2E', 'E 2', 'Cb0', 'E2 +3', '♯'])('%j is none', text => {
		expect(parseNote(text)).toBeUndefined();
	});
});

test('parsePitchClass() reads a name without one', () => {
	expect(parsePitchClass('bb')).toEqual({name: 'Bb', chroma: 10});
	expect(parsePitchClass('b')).toEqual({name: 'B', chroma: 11});
	expect(parsePitchClass('E2')).toBeUndefined();
});

test('noteName() refuses what is no semitone of ours', () => {
	expect(() => noteName(11)).toThrow('noteName: expected midi to be a whole number from 12 to 127, got 11');
	expect(() => noteName(60.5)).toThrow(RangeError);
});

describe('laws', () => {
	const midi = fc.integer({min: 12, max: 127});

	test('a name reads back as its semitone, in both spellings', () => {
		fc.assert(
			fc.property(midi, fc.constantFrom('sharps', 'flats'), (key, spelling) => {
				expect(parseNote(noteName(key, spelling as 'sharps' | 'flats'))?.midi).toBe(key);
			}),
		);
	});

	test('the nearest note of a class is within six semitones, and its name is its pitch', () => {
		const classes = ['C', 'Cb', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B', 'B#'];
		fc.assert(
			fc.property(fc.constantFrom(...classes), fc.double({min: 24, max: 100, noNaN: true}), (name, near) => {
				const note = nearestNote(parsePitchClass(name)!, near);
				expect(Math.abs(note.midi - near)).toBeLessThanOrEqual(6);
				expect(parseNote(note.name)).toEqual(note);
			}),
		);
	});
});
