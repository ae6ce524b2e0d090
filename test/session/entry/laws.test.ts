import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {noteName} from '../../../source/music/note.ts';
import {frequencyHz} from '../../../source/music/pitch.ts';
import {setsFor, stringSets} from '../../../source/session/catalog/sets.ts';
import {readGauge} from '../../../source/session/entry/gauge.ts';
import {readGauges} from '../../../source/session/entry/gauges.ts';
import {
	readAction,
	readAngle,
	readCentsOffset,
	readClawTurns,
	readReferenceA,
	readSaddleTravel,
	readScaleLength,
	readTailHeight,
	readTurns,
	readWhole,
} from '../../../source/session/entry/measures.ts';
import {readNote, readNotes} from '../../../source/session/entry/notes.ts';
import {readReading} from '../../../source/session/entry/reading.ts';
import {tunings} from '../../../source/music/tunings.ts';
import {formatCents, formatCentsUnit, formatCentsWords} from '../../../source/units/cents.ts';
import {
	formatGauge,
	formatSixtyFourths,
	formatTail,
	formatTravel,
	formatTypedLength,
} from '../../../source/units/length.ts';
import {formatDegrees, formatHertz} from '../../../source/units/quantities.ts';
import {formatTurns} from '../../../source/units/turns.ts';
import {context} from './reading-examples.ts';

const mm = {length: 'mm'} as const;
const inch = {length: 'in'} as const;
const thousand = fc.double({min: -1000, max: 1000, noNaN: true});

/** Any text, and texts near to what is typed: pieces of entries in any order. */
const pieces = [
	'1',
	'9',
	'0',
	'O',
	'l',
	'.',
	',',
	'-',
	'+',
	'−',
	' ',
	'/',
	':',
	'!',
	'E',
	'b',
	'#',
	'hz',
	'c',
	'w',
	'mm',
];
const words = [
	'½',
	'"',
	'in',
	'slack',
	'flat',
	'back',
	'treble',
	'bass',
	';',
	'e5',
	'NaN',
	'\u0000',
	'♭',
	'tens',
	'drop',
];
const anything = fc.oneof(
	fc.string({unit: 'grapheme'}),
	fc.string({unit: 'binary', maxLength: 40}),
	fc.array(fc.constantFrom(...pieces, ...words), {maxLength: 12}).map(parts => parts.join('')),
);
const runs = {numRuns: 2000};

type Read = (text: string) => {readonly kind: string; readonly said?: string; readonly value?: unknown};

const readers: readonly Read[] = [
	text => readScaleLength(text, mm),
	text => readAction(text, inch),
	text => readTailHeight(text, mm),
	text => readSaddleTravel(text, mm),
	readTurns,
	readClawTurns,
	readAngle,
	text => readWhole(text, 'a number of springs', [1, 6], 3),
	readReferenceA,
	readCentsOffset,
	readGauge,
	text => readGauges(text, 6),
	text => readNote(text, 'E2'),
	text => readNotes(text, 7),
];

const typedReading: Read = text => readReading(text, context());

describe('whatever is typed, there is an answer', () => {
	const contexts = fc.constantFrom(
		context(),
		context({how: 'harmonic'}),
		context({how: 'fretted', fret: 7}),
		context({}, {expected: {mean: -12, sd: 2}}),
		context({}, {fromSlack: true}),
	);

	test('a reading', () => {
		fc.assert(
			fc.property(anything, contexts, (text, about) => {
				const found = readReading(text, about);
				const reading = found.kind === 'doubtful' ? found.reading : found;
				if (reading.kind === 'reading') {
					expect(Math.abs(reading.cents)).toBeLessThanOrEqual(2400 + 1200);
					expect(reading.readings.every(Number.isFinite)).toBe(true);
				}

				if ('said' in found) {
					expect(found.said).toMatch(/^Read /);
					const quoted = found.said.indexOf('”') + 1;
					expect(found.said.slice(quoted)).not.toMatch(/NaN|Infinity|undefined|\p{Cc}/u);
					expect(found.said.slice(0, quoted)).not.toMatch(/\p{Cc}/u);
				}
			}),
			runs,
		);
	});

	test('a measure, a gauge, a note', () => {
		fc.assert(
			fc.property(anything, text => {
				for (const read of readers) {
					const found = read(text);
					expect(['value', 'doubtful', 'refused']).toContain(found.kind);
					if (found.kind === 'refused') {
						expect(found.said).toMatch(/^Read .*: .*[.?] Allowed: .* Example: .+$/);
					} else {
						expect(JSON.stringify(found.value)).not.toMatch(/null|undefined/);
					}
				}
			}),
			runs,
		);
	});
});

describe('advice can be followed', () => {
	test('every example in a refusal would be taken', () => {
		for (const read of [...readers, typedReading]) {
			const refused = read('');
			const example = / Example: (.+)$/.exec(refused.said ?? '')?.[1] ?? '';
			expect(refused.kind).toBe('refused');
			expect(['value', 'reading'], `${refused.said}`).toContain(read(example).kind);
		}
	});

	test('what a refusal or a question takes to be meant is not refused', () => {
		const refused: string[] = [];
		let advised = 0;
		fc.assert(
			fc.property(anything, text => {
				for (const read of [...readers, typedReading]) {
					const {said = ''} = read(text);
					const perhaps = /(?:did you mean|Perhaps) ([^?]+)\?/.exec(said.slice(said.indexOf('”') + 1))?.[1];
					if (perhaps !== undefined) {
						advised += 1;
						if (read(perhaps).kind === 'refused') refused.push(said);
					}
				}
			}),
			{...runs, examples: [['1O'], ['82.1'], ['E3 -12']]},
		);
		expect(advised).toBeGreaterThan(2);
		expect(refused).toEqual([]);
	});
});

describe('what is shown can be typed', () => {
	test('cents, in a column, with a unit, in words', () => {
		fc.assert(
			fc.property(fc.double({min: -500, max: 500, noNaN: true}), cents => {
				const belief = context({}, {expected: {mean: cents, sd: 5}});
				for (const text of [formatCents(cents), formatCentsUnit(cents), formatCentsWords(cents)]) {
					const found = readReading(text, belief);
					expect(found.kind).toBe('reading');
					expect(found.kind === 'reading' && Math.abs(found.cents - cents)).toBeLessThanOrEqual(0.0501);
				}
			}),
		);
	});

	test('hertz and notes around the target', () => {
		fc.assert(
			fc.property(fc.integer({min: 36, max: 43}), fc.integer({min: -49, max: 49}), (midi, cents) => {
				const belief = context({}, {fromSlack: true, expected: {mean: 100 * (midi - 40) + cents, sd: 5}});
				const hz = readReading(formatHertz(frequencyHz(midi + cents / 100)), belief);
				expect(hz).toMatchObject({kind: 'reading', cents: expect.closeTo(100 * (midi - 40) + cents, 0)});
				const note = readReading(`${noteName(midi, 'flats')} ${cents < 0 ? cents : `+${cents}`}`, belief);
				expect(note).toMatchObject({kind: 'reading', cents: expect.closeTo(100 * (midi - 40) + cents, 6)});
			}),
		);
	});

	test('turns, lengths, heights, angles', () => {
		fc.assert(
			fc.property(thousand, value => {
				const turns = Math.round((value / 250) * 8) / 8 + 0;
				expect(readTurns(formatTurns(turns))).toMatchObject({kind: 'value', value: turns});
				const tail = value / 150;
				expect(readTailHeight(formatTail(tail, mm), mm)).toMatchObject({value: expect.closeTo(tail, 1.9)});
				expect(readTailHeight(formatTail(tail, inch), inch)).toMatchObject({value: expect.closeTo(tail, 1.5)});
				expect(readSaddleTravel(formatTravel(tail / 2, mm), inch)).toMatchObject({
					value: expect.closeTo(tail / 2, 1.9),
				});
				expect(readAngle(formatDegrees(value / 100))).toMatchObject({value: expect.closeTo(value / 100, 0.9)});
				const action = 1.9 + value / 1000;
				expect(readAction(formatTypedLength(action, inch), inch)).toMatchObject({value: expect.closeTo(action, 1.5)});
				expect(readAction(formatSixtyFourths(action), mm)).toMatchObject({value: expect.closeTo(action, 0.39)});
			}),
		);
	});

	test('gauges in both units, and whole sets from either end', () => {
		for (const set of stringSets) {
			const {strings} = set;
			for (const units of [mm, inch]) {
				const shown = strings.map(({gaugeThou, wound}) => formatGauge(gaugeThou, wound, units));
				for (const [index, text] of shown.entries()) {
					expect(readGauge(text)).toMatchObject({value: {gaugeThou: expect.closeTo(strings[index]!.gaugeThou, -0.2)}});
				}
			}

			const line = strings.map(({gaugeThou, wound}) => `${gaugeThou}${wound ? 'w' : 'p'}`);
			expect(readGauges(line.join(' '), strings.length)).toMatchObject({kind: 'value', value: strings});
			expect(readGauges(line.toReversed().join('-'), strings.length)).toMatchObject({kind: 'value', value: strings});
			expect(readGauges(set.name, strings.length)).toMatchObject({kind: 'value', value: strings});
		}

		expect(setsFor(6).length + setsFor(7).length + setsFor(8).length).toBe(stringSets.length);
	});

	test.each(tunings)('tuning $id, by notes from either end and without octaves', ({notes, name}) => {
		const bare = notes.map(note => note.replace(/\d/, ''));
		for (const text of [
			notes.join(' '),
			notes.toReversed().join(' '),
			bare.toReversed().join(' '),
			bare.toReversed().join(''),
			name,
		]) {
			expect(readNotes(text, notes.length)).toMatchObject({kind: 'value', value: notes});
		}
	});
});
