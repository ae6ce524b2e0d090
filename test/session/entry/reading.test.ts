import {describe, expect, test} from 'vitest';
import {pitchReads, type ReadingEntry, readReading} from '../../../source/session/entry/reading.ts';
import {context} from './reading-examples.ts';

function reading(entry: ReadingEntry) {
	return entry.kind === 'reading' ? {string: entry.string, cents: entry.cents} : entry;
}

describe('cents, hertz and notes, as people type them', () => {
	test.each([
		['-12', -12],
		['−12', -12],
		['– 12', -12],
		['12', 12],
		['+3.5', 3.5],
		['-3,5', -3.5],
		['.5', 0.5],
		['-12c', -12],
		['12 ct', 12],
		['12 cents', 12],
		['3.2 cents sharp', 3.2],
		['12 flat', -12],
		['in tune', 0],
		['１２', 12],
		['  -12\n', -12],
		['E2 -12', -12],
		['E2-12', -12],
		['e2 - 12 cents', -12],
		['E2 12', 12],
		['E2', 0],
		['F#2 +20', 220],
		['F♯2 +20', 220],
		['Gb2 +20', 220],
		['eb2+3', -97],
		['E♭2 +3', -97],
		['E -12', -12],
		['E-12', -12],
		['Eb +90', -10],
		['b1 +450', -50],
	])('%j is %d cents', (text, cents) => {
		const found = reading(readReading(text, context()));
		expect(found).toEqual({string: 6, cents: expect.closeTo(cents, 9)});
	});

	test.each([
		['82.1hz', -6.4594],
		['82.1 Hz', -6.4594],
		['82,1 hz', -6.4594],
		['82.406889 hertz', 0],
	])('%j is %d cents of 82.4069 Hz', (text, cents) => {
		expect(reading(readReading(text, context()))).toEqual({string: 6, cents: expect.closeTo(cents, 3)});
	});

	test('a note is at the reference A, bare cents are against the target with its offset', () => {
		const at442 = context({referenceAHz: 442});
		expect(reading(readReading('E2 -12', at442))).toEqual({string: 6, cents: expect.closeTo(-12, 9)});
		const offset = context({}, {targetHz: 82.4068892282 * 2 ** (-2 / 1200)});
		expect(reading(readReading('E2 -2', offset))).toEqual({string: 6, cents: expect.closeTo(0, 6)});
		expect(reading(readReading('-2', offset))).toEqual({string: 6, cents: -2});
	});
});

describe('another string', () => {
	test.each(['5: -12', '5:-12', '5 : A2 -12', 'string 5: -12', '5: 109.24hz'])('%j is a reading of string 5', text => {
		expect(reading(readReading(text, context()))).toEqual({string: 5, cents: expect.closeTo(-12, 1)});
	});

	test('its number alone selects it; slack is a word', () => {
		expect(readReading('5:', context())).toEqual({kind: 'select', string: 5, entered: '5:'});
		expect(readReading('Slack', context())).toEqual({kind: 'slack', string: 6, entered: 'Slack'});
		expect(readReading('5: slack', context())).toEqual({kind: 'slack', string: 5, entered: '5: slack'});
	});

	test.each(['0: 3', '7: 3', '99999999999999999999: 3'])('%j names no string of six', text => {
		expect(readReading(text, context())).toMatchObject({kind: 'refused', code: 'no-such-string'});
	});
});

describe('several plucks', () => {
	test.each([
		'-12 -11.5 -12.2',
		'-12/-11.5/-12.2',
		'-12, -11.5, -12.2',
		'-12; -11,5; -12,2',
		'E2 -12 -11.5 -12.2',
		'E2 -12 E2 -11.5 E2 -12.2',
	])('%j are three, with mean and spread', text => {
		const found = readReading(text, context());
		expect(found).toMatchObject({kind: 'reading', cents: expect.closeTo(-11.9, 9), entered: text});
		expect(found.kind === 'reading' && found.readings.map(each => Math.round(each * 10) / 10)).toEqual([
			-12, -11.5, -12.2,
		]);
		// Sample standard deviation by hand: sqrt((0.1² + 0.4² + 0.3²) / 2).
		expect(found.kind === 'reading' && found.sdCents).toBeCloseTo(Math.sqrt(0.26 / 2), 9);
	});

	test('each becomes a fact of its own, with all that was typed', () => {
		const found = readReading('-12 -11.5!', context());
		expect(found.kind === 'reading' && pitchReads(found, 'fretted', 12)).toEqual([
			{type: 'PitchRead', string: 6, how: 'fretted', fret: 12, cents: -12, entered: '-12 -11.5!', meant: true},
			{type: 'PitchRead', string: 6, how: 'fretted', fret: 12, cents: -11.5, entered: '-12 -11.5!', meant: true},
		]);
	});
});

describe('what cannot be a reading is answered with what was read, what is allowed and an example', () => {
	test.each([
		['', 'empty', 'Read nothing: a reading was expected.'],
		['  ', 'empty', 'Read nothing'],
		['!', 'empty', 'Read “!”'],
		['1O', 'letter-for-digit', 'did you mean 10?'],
		['-l2', 'letter-for-digit', 'did you mean -12?'],
		['5: -1O', 'letter-for-digit', 'did you mean 5: -10?'],
		['E2 -1o', 'letter-for-digit', 'did you mean E2 -10?'],
		['1Ocents', 'letter-for-digit', 'did you mean 10cents?'],
		['O', 'letter-for-digit', 'did you mean 0?'],
		['E 4', 'ambiguous', 'did you mean E +4?'],
		['-1,200', 'ambiguous', 'did you mean -1200?'],
		['-12 flat', 'ambiguous', 'did you mean -12?'],
		['12 82.1hz', 'mixed', 'given in different ways'],
		['1e2', 'not-understood', 'Read “1e2”: this cannot be read as a pitch.'],
		['NaN', 'not-understood', 'Read “NaN”'],
		['Infinity', 'not-understood', 'Read “Infinity”'],
		['--12', 'not-understood', 'Read “--12”'],
		['12..5', 'not-understood', 'Read “12..5”'],
		['H2', 'not-understood', 'Read “H2”'],
		['E9 +3', 'out-of-range', 'more than two octaves from string 6 (E2)'],
		['-2401', 'out-of-range', 'more than two octaves'],
		['0hz', 'out-of-range', 'more than two octaves'],
		['99999999999999999999', 'out-of-range', 'Read “99999999999999999999”'],
		['1 2 3 4 5 6 7 8 9 10 11 12 13', 'too-many', 'more than 12 plucks'],
		['x'.repeat(500), 'too-long', 'Read “xxxxxxxxxxxxxxxxxxxxxxx…”: longer than 120'],
	])('%j', (text, code, words) => {
		const found = readReading(text, context());
		expect(found).toMatchObject({kind: 'refused', code});
		const said = found.kind === 'refused' ? found.said : '';
		expect(said).toContain(words);
		expect(said).toMatch(/ Allowed: cents \(-12\), hertz \(82\.4hz\), a note \(E2 -12\), .* Example: -12$/);
	});
});

describe('what is possible but surprising is asked about, and nothing typed is lost', () => {
	test.each([
		['1200', {}, 'octave', 'an octave above string 6 (E2), which should sound E2'],
		['E3 -12', {}, 'octave', 'Perhaps E2 -12?'],
		['41.2hz', {}, 'octave', 'an octave below'],
		[
			'D3 +3',
			{},
			'other-string',
			'that is the pitch of string 4 (D3), 1003 cents sharp of string 6 (E2). Perhaps 4: +3?',
		],
		['A -3', {}, 'other-string', 'Perhaps 5: -3?'],
		['110hz', {}, 'other-string', 'Perhaps 5: 0?'],
		['82.1', {}, 'hertz', 'taken as 82.1 cents sharp, but string 6 (E2) sounds 82.4 Hz. Perhaps 82.1hz?'],
		['-700', {}, 'far', '700 cents flat of string 6 (E2)'],
		['12', {expected: {mean: -12, sd: 1}}, 'sign', 'where about −12.0 ±1.6 was expected. Perhaps -12?'],
		['35', {expected: {mean: 3.5, sd: 0.5}}, 'decimal', 'Perhaps +3.5?'],
		['70', {expected: {mean: 0, sd: 2}}, 'unexpected', '+70.0 on string 6, where about 0.0 ±3.3 was expected'],
		['-12 30', {}, 'spread', 'these plucks lie 42 cents apart'],
	])('%j, believed %j: %s', (text, sixth, code, words) => {
		const found = readReading(text, context({}, sixth));
		expect(found).toMatchObject({
			kind: 'doubtful',
			code,
			reading: {kind: 'reading', string: 6, entered: text, meant: true},
		});
		expect(found.kind === 'doubtful' && found.said).toContain(words);

		// "I meant it", said at once, gives the reading that the question held.
		const insisted = readReading(`${text}!`, context({}, sixth));
		expect(insisted).toEqual({...(found.kind === 'doubtful' ? found.reading : {}), entered: `${text}!`});
	});

	test.each([
		['-11', {expected: {mean: -12, sd: 1}}],
		['1200', {expected: {mean: 1190, sd: 20}}],
		['-700', {expected: {mean: -650, sd: 30}}],
		['82.1', {expected: {mean: 80, sd: 3}}],
		['-25', {expected: {mean: -5, sd: 3}}],
		['-900', {fromSlack: true}],
		['-1200', {fromSlack: true}],
		['B1', {fromSlack: true}],
	])('%j, believed %j, is no surprise', (text, sixth) => {
		expect(readReading(text, context({}, sixth)).kind).toBe('reading');
	});

	test('a string on its way up is taken to stand below its target', () => {
		expect(reading(readReading('A', context({}, {fromSlack: true})))).toEqual({
			string: 6,
			cents: expect.closeTo(-700, 9),
		});
	});
});

describe('harmonic and fretted 12th are against the octave that sounds', () => {
	test.each([
		['harmonic', 'E3 +4', 4],
		['harmonic', 'E +4', 4],
		['harmonic', '4', 4],
		['harmonic', '164.8hz', -0.1447],
		// The open string is the harmonic to a quarter of a cent: a tuner an octave low does no harm.
		['harmonic', 'E2 +4', 4],
		['harmonic', '82.4hz', -0.1447],
		['fretted', 'E3 +4', 4],
		['fretted', 'E +4', 4],
		['fretted', '4', 4],
	] as const)('%s %j is %d', (how, text, cents) => {
		expect(reading(readReading(text, context({how})))).toEqual({string: 6, cents: expect.closeTo(cents, 3)});
	});

	test('a fretted note an octave low may be the open string: asked, and folded if meant', () => {
		const found = readReading('E2 +4', context({how: 'fretted'}));
		expect(found).toMatchObject({kind: 'doubtful', code: 'open-pitch', reading: {cents: expect.closeTo(4, 9)}});
		expect(found.kind === 'doubtful' && found.said).toContain('fretted string 6 (E2) should sound E3');
	});

	test('at another fret the note of that fret is meant', () => {
		const third = context({how: 'fretted', fret: 3});
		expect(reading(readReading('G2 +4', third))).toEqual({string: 6, cents: expect.closeTo(4, 9)});
		expect(readReading('E2 +4', third)).toMatchObject({kind: 'doubtful', reading: {cents: expect.closeTo(-296, 9)}});
	});
});
