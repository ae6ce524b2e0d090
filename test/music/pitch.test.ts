import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {centsBetween, frequencyHz, hzFromCents, midiFromHz} from '../../source/music/pitch.ts';

describe('a bug is said in one grammar', () => {
	test.each([
		[() => frequencyHz('H2'), 'frequencyHz: expected note to be a note like E2 or a finite number, got H2'],
		[() => frequencyHz(69, 399), 'frequencyHz: expected referenceAHz from 400 to 480, got 399'],
		[() => frequencyHz(69, Number.NaN), 'frequencyHz: expected referenceAHz from 400 to 480, got NaN'],
		[() => centsBetween(0, 440), 'centsBetween: expected hz to be positive and finite, got 0'],
		[() => hzFromCents(Number.NaN, 440), 'hzFromCents: expected cents to be finite, got NaN'],
	])('%s', (call, message) => {
		expect(call).toThrow(new RangeError(message));
	});
});

describe('laws', () => {
	const hz = fc.double({min: 1, max: 20_000, noNaN: true});
	const cents = fc.double({min: -5000, max: 5000, noNaN: true});

	test('cents and hertz invert each other', () => {
		fc.assert(
			fc.property(hz, cents, (from, by) => {
				expect(centsBetween(hzFromCents(by, from), from)).toBeCloseTo(by, 8);
			}),
		);
	});

	test('an interval and its reverse cancel, and intervals add', () => {
		fc.assert(
			fc.property(hz, hz, hz, (a, b, c) => {
				expect(centsBetween(a, b) + centsBetween(b, a)).toBeCloseTo(0, 9);
				expect(centsBetween(a, b) + centsBetween(b, c)).toBeCloseTo(centsBetween(a, c), 8);
			}),
		);
	});

	test('twelve semitones double the pitch, and midiFromHz() undoes frequencyHz()', () => {
		const reference = fc.double({min: 400, max: 480, noNaN: true});
		fc.assert(
			fc.property(fc.double({min: 12, max: 115, noNaN: true}), reference, (midi, a) => {
				expect(frequencyHz(midi + 12, a) / frequencyHz(midi, a)).toBeCloseTo(2, 12);
				expect(midiFromHz(frequencyHz(midi, a), a)).toBeCloseTo(midi, 9);
			}),
		);
	});
});
