import {describe, expect, test} from 'vitest';
import {parseNote} from '../../../source/music/note.ts';
import {tunings, tuningsFor} from '../../../source/music/tunings.ts';
import {defaultSheet, stringCounts, withSet, withTuning} from '../../../source/session/catalog/default-sheet.ts';
import {endsOf, isUsuallyWound, setOf, setsFor, stringSets} from '../../../source/session/catalog/sets.ts';

describe.each(stringSets)('$id $name', ({strings}) => {
	test('rises from thin to thick, plain strings first, and is found by its strings', () => {
		for (const [index, string] of strings.slice(1).entries()) {
			expect(string.gaugeThou).toBeGreaterThan(strings[index]!.gaugeThou);
			expect(Number(string.wound)).toBeGreaterThanOrEqual(Number(strings[index]!.wound));
		}

		expect(strings.map(({gaugeThou}) => isUsuallyWound(gaugeThou))).toEqual(strings.map(({wound}) => wound));
		expect(setOf(strings)?.strings).toBe(strings);
	});
});

test('ids and names are told apart, and every count has sets and a default among them', () => {
	expect(new Set(stringSets.map(({id}) => id)).size).toBe(stringSets.length);
	expect(new Set(stringSets.map(({name}) => name)).size).toBe(stringSets.length);
	expect(stringSets.every(({strings}) => [6, 7, 8].includes(strings.length))).toBe(true);
});

describe('defaultSheet()', () => {
	test('"six strings, tens, standard" is a whole sheet', () => {
		const tens = setsFor(6).find(({name}) => name === 'tens')!;
		const sheet = defaultSheet({strings: 6, set: tens, tuning: tuningsFor(6)[0]!});
		expect(sheet).toEqual(defaultSheet());
		expect(sheet.strings.map(({note, gaugeThou, wound}) => `${note} ${gaugeThou}${wound ? 'w' : ''}`)).toEqual([
			'E4 10',
			'B3 13',
			'G3 17',
			'D3 26w',
			'A2 36w',
			'E2 46w',
		]);
		expect(sheet).toMatchObject({scaleLengthMm: 648, referenceAHz: 440, springs: 3, plateWishMm: 0, job: 'whole'});
		expect(sheet).toMatchObject({openToleranceCents: 1, frettedToleranceCents: 2, actionMm: 1.6, nutHeightMm: 0.35});
	});

	test.each(stringCounts)('%d strings alone are enough', count => {
		const sheet = defaultSheet({strings: count});
		expect(sheet.strings).toHaveLength(count);
		expect(sheet.strings.every(({note, gaugeThou}) => parseNote(note) && gaugeThou > 0)).toBe(true);
		expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
	});

	test('set or tuning alone tell the count', () => {
		expect(defaultSheet({set: setsFor(7)[0]!}).strings).toHaveLength(7);
		expect(defaultSheet({tuning: tunings.find(({id}) => id === '8-drop-e')!}).strings.at(-1)?.note).toBe('E1');
	});

	test('a set that does not fit is a bug', () => {
		expect(() => defaultSheet({strings: 6, set: setsFor(7)[0]!})).toThrow('defaultSheet: expected 6 gauges, got 7');
		expect(() => defaultSheet({tuning: {notes: ['E4']}})).toThrow('defaultSheet: expected 6, 7 or 8 strings, got 1');
	});
});

test('withSet() and withTuning() change that alone', () => {
	const sheet = defaultSheet();
	const cored = {...sheet, strings: sheet.strings.map(string => ({...string, coreThou: 14, saddleMm: 2}))};
	const nines = setsFor(6).find(set => endsOf(set.strings) === '9-42')!.strings;
	const changed = withTuning(withSet(cored, nines), ['E4', 'B3', 'G3', 'D3', 'A2', 'D2']);
	expect(changed.strings.at(-1)).toEqual({note: 'D2', gaugeThou: 42, wound: true, saddleMm: 2, saddleRangeMm: [-2, 8]});
	expect({...changed, strings: []}).toEqual({...sheet, strings: []});
	expect(() => withSet(sheet, [])).toThrow(RangeError);
});
