import {describe, expect, test} from 'vitest';
import {readGauge} from '../../../source/session/entry/gauge.ts';
import {readGauges} from '../../../source/session/entry/gauges.ts';
import {readNote, readNotes} from '../../../source/session/entry/notes.ts';

const nines = [9, 11, 16, 24, 32, 42].map(gaugeThou => ({gaugeThou, wound: gaugeThou > 20}));

describe('readGauge()', () => {
	test.each([
		['9', 9, false],
		['.009', 9, false],
		['0.009"', 9, false],
		['009', 9, false],
		['9.5', 9.5, false],
		['42', 42, true],
		['.042in', 42, true],
		['24w', 24, true],
		['18p', 18, false],
		['18 wound', 18, true],
		['0.23mm', 9.1, false],
		['0,23', 9.1, false],
		['1.07 mm w', 42.1, true],
	])('%j is %d thousandths, wound: %s', (text, gaugeThou, wound) => {
		expect(readGauge(text)).toMatchObject({kind: 'value', value: {gaugeThou, wound}, entered: text});
	});

	test.each([
		['4', 'out-of-range'],
		['420', 'out-of-range'],
		['', 'empty'],
		['1O', 'letter-for-digit'],
		['nine', 'not-understood'],
		['9 11', 'not-understood'],
		['-9', 'not-understood'],
	])('%j is refused: %s', (text, code) => {
		expect(readGauge(text)).toMatchObject({
			kind: 'refused',
			code,
			said: expect.stringContaining('plain (p) from 5 to 40 thousandths, wound (w) from 12 to 120. Example: 42w'),
		});
	});

	test('a thick plain string and a thin wound one are asked about', () => {
		expect(readGauge('30p')).toMatchObject({kind: 'doubtful', value: {gaugeThou: 30, wound: false}});
		expect(readGauge('12w')).toMatchObject({kind: 'doubtful', value: {gaugeThou: 12, wound: true}});
	});
});

describe('readGauges()', () => {
	test.each([
		'9 11 16 24w 32 42',
		'42 32 24 16 11 9',
		'9-11-16-24-32-42',
		'9,11,16,24,32,42',
		'.009 .011 .016 .024w .032w .042w',
		'9, 11, 16, 24 w, 32 w, 42 w',
		'nines',
		'9s',
		'9-42',
		'9 to 42',
		'.009-.042',
	])('%j are nines', text => {
		expect(readGauges(text, 6)).toEqual({kind: 'value', value: nines, entered: text});
	});

	test('a decimal comma is told from a parting one', () => {
		expect(readGauges('9,5 11,5 16 24 34 44', 6)).toMatchObject({
			value: [{gaugeThou: 9.5}, {gaugeThou: 11.5}, {}, {}, {}, {}],
		});
	});

	test.each([
		['9 11 16 24 32', 'wrong-count', '5 gauges for 6 strings'],
		['10-51', 'wrong-count', '9-42, 9-46'],
		['9 11 16 24 32 4O', 'letter-for-digit', 'did you mean 9 11 16 24 32 40?'],
		['', 'empty', 'gauges were expected'],
	])('%j is refused: %s', (text, code, words) => {
		expect(readGauges(text, 6)).toMatchObject({kind: 'refused', code, said: expect.stringContaining(words)});
	});

	test('gauges that do not rise are asked about', () => {
		expect(readGauges('9 11 24 16 32 42', 6)).toMatchObject({kind: 'doubtful', entered: '9 11 24 16 32 42'});
	});
});

describe('readNote()', () => {
	test.each([
		['D2', 'E2', 'D2'],
		['d', 'E2', 'D2'],
		['c#', 'E2', 'C#2'],
		['B♭1', 'B1', 'Bb1'],
		['b', 'E2', 'B1'],
	])('%j, near %s, is %s', (text, near, name) => {
		expect(readNote(text, near)).toEqual({kind: 'value', value: name, entered: text});
	});

	test.each([
		['', 'empty'],
		['H2', 'not-understood'],
		['E2 +3', 'not-understood'],
		['E7', 'out-of-range'],
	])('%j is refused: %s', (text, code) => {
		expect(readNote(text, 'E2')).toMatchObject({kind: 'refused', code, said: expect.stringContaining('Example: E2')});
	});
});

describe('readNotes()', () => {
	test.each([
		['E2 A2 D3 G3 B3 E4', 'E4 B3 G3 D3 A2 E2'],
		['E4 B3 G3 D3 A2 E2', 'E4 B3 G3 D3 A2 E2'],
		['EADGBE', 'E4 B3 G3 D3 A2 E2'],
		['ebgdae', 'E4 B3 G3 D3 A2 E2'],
		['DADGBE', 'E4 B3 G3 D3 A2 D2'],
		['dadgad', 'D4 A3 G3 D3 A2 D2'],
		['EbAbDbGbBbEb', 'Eb4 Bb3 Gb3 Db3 Ab2 Eb2'],
		['C G C F A D', 'D4 A3 F3 C3 G2 C2'],
		['Drop D', 'E4 B3 G3 D3 A2 D2'],
		['drop c sharp tuning', 'D#4 A#3 F#3 C#3 G#2 C#2'],
		['half step down', 'Eb4 Bb3 Gb3 Db3 Ab2 Eb2'],
	])('%j is %s', (text, notes) => {
		expect(readNotes(text, 6)).toEqual({kind: 'value', value: notes.split(' '), entered: text});
	});

	test.each([
		['', 'empty', 'notes were expected'],
		['E A D G B', 'wrong-count', 'these are not 6 notes'],
		['E A D X B E', 'not-understood', 'X is no note'],
		['E7 A2 D3 G3 B3 E4', 'out-of-range', 'no string is tuned to E7'],
	])('%j is refused: %s', (text, code, words) => {
		expect(readNotes(text, 6)).toMatchObject({kind: 'refused', code, said: expect.stringContaining(words)});
	});

	test('notes that do not rise are asked about', () => {
		expect(readNotes('E2 A2 D3 D3 B3 E4', 6)).toMatchObject({
			kind: 'doubtful',
			value: ['E4', 'B3', 'D3', 'D3', 'A2', 'E2'],
		});
	});
});
