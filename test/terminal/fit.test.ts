import fc from 'fast-check';
import stringWidth from 'string-width';
import {expect, test} from 'vitest';
import {cutTo, fitTo, wrapTo, wrapWords} from '../../source/terminal/fit.ts';

const text = fc.string({unit: 'grapheme', maxLength: 60});

test('fitTo() is as wide as asked, whatever the text', () => {
	fc.assert(
		fc.property(
			text,
			fc.integer({min: 0, max: 40}),
			fc.constantFrom('left', 'right', 'centre'),
			(words, width, side) => {
				expect(stringWidth(fitTo(words, width, side as 'left'))).toBe(width);
			},
		),
	);
});

test('cutTo() leaves what fits alone and says when something was cut', () => {
	expect(cutTo('string 5', 8)).toBe('string 5');
	expect(cutTo('string 5 (A2)', 9)).toBe('string 5…');
	expect(cutTo('string 5 (A2)', 9, '...')).toBe('string...');
	expect(cutTo('弦弦弦', 5)).toBe('弦弦…');
});

test('wrapWords() keeps every word, in order, in rows no wider than asked', () => {
	fc.assert(
		fc.property(
			fc.array(fc.stringMatching(/^[a-z0-9+.-]{1,12}$/), {maxLength: 30}),
			fc.integer({min: 12, max: 50}),
			(words, width) => {
				const rows = wrapWords(words.join(' '), width);
				for (const row of rows) expect(stringWidth(row)).toBeLessThanOrEqual(width);
				expect(rows.join(' ').trim()).toBe(words.join(' '));
			},
		),
	);
});

test('wrapWords() breaks a word that is wider than the row', () => {
	expect(wrapWords('abcdefgh ij', 3)).toEqual(['abc', 'def', 'gh', 'ij']);
});

test('wrapTo() marks the last row when more was to come', () => {
	expect(wrapTo('one two three four', 9, 2)).toEqual(['one two', 'three…']);
	expect(wrapTo('one two', 9, 2)).toEqual(['one two']);
});
