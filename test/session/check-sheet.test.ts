import {describe, expect, test} from 'vitest';
import {sheetProblems} from '../../source/session/check-sheet.ts';
import type {InstrumentSheet, StringSheet} from '../../source/session/sheet.ts';
import {sheet} from '../helpers/deeds.ts';

const problemsWith = (change: Partial<InstrumentSheet>) => sheetProblems({...sheet, ...change});
const firstString = (change: Partial<StringSheet>) =>
	problemsWith({strings: sheet.strings.map((row, index) => (index === 0 ? {...row, ...change} : row))});

test('a usual sheet has no problems', () => {
	expect(sheetProblems(sheet)).toEqual([]);
});

test('seven and eight strings are as good as six; five and nine are not', () => {
	const low: StringSheet = {note: 'B1', gaugeThou: 59, wound: true};
	const lower: StringSheet = {note: 'F#1', gaugeThou: 74, wound: true};
	expect(problemsWith({strings: [...sheet.strings, low]})).toEqual([]);
	expect(problemsWith({strings: [...sheet.strings, low, lower]})).toEqual([]);
	expect(problemsWith({strings: sheet.strings.slice(1)})[0]?.field).toBe('strings');
	expect(problemsWith({strings: [...sheet.strings, low, lower, lower]})[0]?.field).toBe('strings');
});

describe('each field has its bounds', () => {
	test.each<[keyof InstrumentSheet, Partial<InstrumentSheet>]>([
		['name', {name: '  '}],
		['name', {name: 'x'.repeat(81)}],
		['scaleLengthMm', {scaleLengthMm: 25.5}],
		['referenceAHz', {referenceAHz: 399}],
		['referenceAHz', {referenceAHz: 481}],
		['springs', {springs: 7}],
		['springs', {springs: 2.5}],
		['clawScrewPitchMm', {clawScrewPitchMm: 0}],
		['plateWishMm', {plateWishMm: 30}],
		['tailArmMm', {tailArmMm: 0}],
		['openToleranceCents', {openToleranceCents: 0}],
		['frettedToleranceCents', {frettedToleranceCents: -1}],
		['actionMm', {actionMm: 16}],
		['nutHeightMm', {nutHeightMm: Number.NaN}],
		['before', {before: sheet.strings.slice(1)}],
		['practiceSeed', {practiceSeed: 1.5}],
		['springLengthsMm', {springLengthsMm: [47, 64]}],
		['springLengthsMm', {springLengthsMm: [130, 47]}],
		['springLengthsMm', {springLengthsMm: [17, 5]}],
	])('%s: %o', (field, change) => {
		const problems = problemsWith(change);
		expect(problems.map(problem => problem.field)).toEqual([field]);
		expect(problems[0]?.said).toMatch(/read .+; allowed/);
	});

	// Both ends belong to the range.
	test.each([400, 480])('reference A may be %d Hz', referenceAHz => {
		expect(problemsWith({referenceAHz})).toEqual([]);
	});
});

describe('each string has its bounds', () => {
	test.each<[keyof StringSheet, Partial<StringSheet>]>([
		['note', {note: 'H4'}],
		['note', {note: ''}],
		['gaugeThou', {gaugeThou: 0.01}],
		['gaugeThou', {gaugeThou: 46}],
		['gaugeThou', {wound: true, gaugeThou: 8}],
		['coreThou', {coreThou: 9}],
		['coreThou', {wound: true, gaugeThou: 26, coreThou: 26}],
		['coreThou', {wound: true, gaugeThou: 26, coreThou: 2}],
		['offsetCents', {offsetCents: 1200}],
		['frettedOffsetCents', {frettedOffsetCents: 90}],
		['actionMm', {actionMm: 0}],
		['saddleMm', {saddleMm: 648}],
		['saddleRangeMm', {saddleRangeMm: [6, -2]}],
		['saddleRangeMm', {saddleRangeMm: [-2, 60]}],
	])('%s: %o', (field, change) => {
		expect(firstString(change)).toMatchObject([{field: `strings.0.${field}`, string: 1}]);
	});

	test('also in what was on before', () => {
		const before = sheet.strings.map((row, index) => (index === 3 ? {...row, note: 'X'} : row));
		expect(problemsWith({before})).toMatchObject([
			{
				field: 'before.3.note',
				string: 4,
				said: 'String 4 before. Note: read X; allowed is a note with its octave, for example E2 or F#3.',
			},
		]);
	});
});
