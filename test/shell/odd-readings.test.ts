import {describe, expect, test} from 'vitest';
import {walk} from '../../demo/walker.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Bench} from '../../source/session/bench.ts';
import type {Deed} from '../../source/session/facts.ts';
import {record} from '../../source/session/journal.ts';
import {oddReadings, withOddMarked} from '../../source/shell/odd-readings.ts';
import {stages} from '../../source/stages/index.ts';

const intonate = stages.find(({id}) => id === 'intonate')!;

/** A guitar in tune as far as the intonate step's first harmonic, all strings read. */
const start = (() => {
	for (const {stage, journal, bench} of walk({...defaultSheet(), job: 'intonation', practiceSeed: 3})) {
		if (stage.id === 'intonate' && bench.tuning.kind === 'done') return journal;
	}
	throw new Error('expected the walk to come to the intonate step');
})();

function readAfter(shifts: Readonly<Record<number, number>>): Bench {
	const {strings} = benchOf(start.story);
	const deeds = Object.entries(shifts).map(([string, shift]): Deed => {
		const {now} = strings[Number(string) - 1]!;
		return {type: 'PitchRead', string: Number(string) as 1, how: 'open', cents: now!.mean + shift, entered: 'x'};
	});
	return benchOf(record(start, deeds, 0).story);
}

/** String 3 twelve cents down, read twice. */
function slipped(): Bench {
	const {story} = readAfter({1: 0, 2: 0.2, 3: -12, 4: 0.3, 5: -0.2, 6: 0.1});
	const low = story.findLast(fact => fact.type === 'PitchRead' && fact.string === 3)!;
	return benchOf(record({story, undone: []}, [low], 1).story);
}

describe('readings of strings that nobody touched', () => {
	test('as believed: nothing is said, and no string is marked', () => {
		const bench = readAfter({1: 0.4, 3: -0.6, 5: 0.3});
		expect(oddReadings(bench, intonate)).toBeUndefined();
		expect(withOddMarked(bench, undefined)).toBe(bench);
	});

	test('one string far off and again: it is named with what to look at, and marked in the table', () => {
		const bench = slipped();
		const odd = oddReadings(bench, intonate);
		expect(odd?.string).toBe(3);
		expect(odd?.said).toMatch(/string 3/);
		expect(odd?.said).toContain('its saddle creeps; slacken it, then snug the hold-down screw');
		expect(withOddMarked(bench, odd).strings.map(({state}) => state)[2]).toBe('needs a look');
	});

	test('all off alike: the tuner’s reference is suspected, and no string', () => {
		const odd = oddReadings(readAfter({1: 8, 2: 8, 3: 8, 4: 8, 5: 8, 6: 8}), intonate);
		expect(odd?.said).toContain('the tuner’s reference changed; check it against a known tone');
		expect(odd?.string).toBeUndefined();
	});

	test('a string put on in this set-up may give without being suspected', () => {
		const bench = slipped();
		const fitted = {...bench.story[1]!, type: 'StringFitted', string: 3} as const;
		const restrung = {...bench, story: [fitted, ...bench.story], lastAdjustment: bench.lastAdjustment + 1};
		expect(oddReadings(restrung, intonate)).toBeUndefined();
	});

	test('at the end, and in the steps that judge readings themselves, nothing more is said', () => {
		const bench = readAfter({1: 8, 2: 8, 3: 8, 4: 8, 5: 8, 6: 8});
		expect(oddReadings(bench, undefined)).toBeUndefined();
		expect(
			oddReadings(
				bench,
				stages.find(({id}) => id === 're-check'),
			),
		).toBeUndefined();
	});
});
