import {describe, expect, test} from 'vitest';
import type {Deed, Story} from '../../../source/session/facts.ts';
import {diagnosisGround} from '../../../source/planning/diagnosis-ground.ts';
import {beliefOf} from '../../../source/session/belief-of.ts';
import {benchOf} from '../../../source/session/bench-of.ts';
import {comparisonText, recheckText} from '../../../source/session/records/as-text.ts';
import {ageDays, compared, fittedAt} from '../../../source/session/records/compare.ts';
import {expectedOf, recheckOf} from '../../../source/session/records/recheck.ts';
import {setUpSheet} from '../../../source/session/report/set-up-sheet.ts';
import {stateOf} from '../../../source/session/evolve.ts';
import {storyOf} from '../../helpers/bench.ts';
import {read} from '../../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const day = 24 * 3600 * 1000;
const all = (cents: (string: (typeof six)[number]) => number) => six.map(string => read(string, cents(string)));
const tail = (tailMm: number): Deed => ({type: 'PlateMeasured', tailMm, entered: String(tailMm)});
const later = (story: Story, ms: number): Story => story.map(fact => ({...fact, at: fact.at + ms}));
const inTune: readonly Deed[] = [...all(() => 0), ...all(() => 0)];
const reads = (cents: (string: (typeof six)[number]) => number) =>
	[...six, ...six].map(string => ({string, cents: cents(string)}));

describe('two set-ups compared', () => {
	const first = storyOf([...all(() => -20), tail(0.4), ...all(() => 0.5), tail(0.1)]);
	const second = later(storyOf([...all(string => -string), tail(0.6), ...all(() => 0)], {actionMm: 1.8}), 30 * day);
	const [a, b] = [setUpSheet(benchOf(first)), setUpSheet(benchOf(second))];

	test('drift is how it came in less how it was left', () => {
		const {strings, days, tailDriftMm, actionMm} = compared(a, b);
		expect(days).toBe(29);
		expect(strings.map(({driftCents}) => driftCents)).toEqual(six.map(string => -string - 0.5));
		expect(tailDriftMm).toBeCloseTo(0.5, 9);
		expect(actionMm).toBeCloseTo(0.2, 9);
	});

	test('a set-up compared with itself differs in nothing but what it came in with', () => {
		const {strings, springs, totalN, tailMm} = compared(a, a);
		expect([springs, totalN, tailMm]).toEqual([0, 0, 0]);
		expect(strings.every(({tensionN, isOther}) => tensionN === 0 && !isOther)).toBe(true);
	});

	test('a string of another gauge is not compared, its pull is', () => {
		const {sheet} = stateOf(second);
		const strings = sheet!.strings.map((row, index) => (index === 0 ? {...row, gaugeThou: 11} : row));
		const heavier = compared(a, setUpSheet(benchOf(storyOf(inTune, {strings}))));
		expect(heavier.strings[0]).toMatchObject({isOther: true});
		expect(heavier.strings[0]!.tensionN).toBeGreaterThan(5);
		expect('driftCents' in heavier.strings[0]!).toBe(false);
	});

	test('as text, in the units chosen', () => {
		const text = comparisonText(compared(a, b), {units: {length: 'mm', force: 'lbf'}});
		expect(text[1]).toBe('string 1: came in −1.5 cents from how it was left');
		expect(text.join('\n')).toMatch(/tail came in \+0\.50 mm/);
		expect(text.join('\n')).toMatch(/action \+0\.20 mm/);
		expect(text.at(-1)).toMatch(/lbf$/);
	});
});

describe('age of strings', () => {
	test('counts from when each was last put on, over all set-ups', () => {
		const fitted = (string: 1 | 2): Deed => ({type: 'StringFitted', string});
		const stories = [later(storyOf([fitted(1)]), 10 * day), storyOf([fitted(1), fitted(2)])];
		const at = fittedAt(stories);
		expect(ageDays(at(1)!, 15 * day)).toBe(4);
		expect(ageDays(at(2)!, 15 * day)).toBe(14);
		expect(at(3)).toBeUndefined();
		expect(ageDays(20 * day, 15 * day)).toBe(0);
	});
});

describe('re-check after a day', () => {
	const yesterday = storyOf(inTune);

	test('opens with what yesterday expects', () => {
		for (const {expected, readCents} of expectedOf(yesterday)) {
			expect(expected!.mean).toBeCloseTo(0, 0);
			expect(expected!.sd).toBeLessThan(1);
			expect(readCents).toBeUndefined();
		}
	});

	test('nothing but a night', () => {
		const found = recheckOf(
			yesterday,
			reads(string => [0.4, -0.6, 0.2, 0.5, -0.3, 0][string - 1]!),
		)!;
		expect(found.verdict).toBe('as-left');
		expect(recheckText(found)[1]).toMatch(/^string 1: expected .*, read \+0\.4$/);
	});

	test('new strings that went flat are settling, old ones that did are not', () => {
		const restrung = storyOf([
			...six.flatMap((string): Deed[] => [
				{type: 'StringFitted', string},
				{type: 'PegTurned', string},
				read(string, 0),
			]),
			...inTune,
			...inTune,
		]);
		const through = diagnosisGround(beliefOf(restrung, stateOf(restrung).sheet!)).strings;
		// Each gives some cents by itself; through the bridge the others rise.
		const flatBy = (own: number) =>
			six.map(string => six.reduce((sum, other) => sum - own * through[other - 1]!.throughBridge[string - 1]!, 0));
		const [little, flat] = [flatBy(8), flatBy(40)] as const;
		const found = recheckOf(
			restrung,
			reads(string => flat[string - 1]!),
		)!;
		expect(found.verdict).toBe('settling');
		expect(
			recheckText(
				recheckOf(
					restrung,
					reads(string => little[string - 1]!),
				)!,
			)[0],
		).toMatch(/^Settling, no fault: .* a little flat/);
		expect(recheckText(found)[0]).toMatch(/^Settling, no fault: the new strings are still stretching in/);
		const old = recheckOf(
			yesterday,
			reads(string => flat[string - 1]!),
		)!;
		expect(old.verdict).not.toBe('settling');
	});

	test('one old string that fell by itself is a fault, and named', () => {
		const {strings} = diagnosisGround(beliefOf(yesterday, stateOf(yesterday).sheet!));
		const found = recheckOf(
			yesterday,
			reads(string => -12 * strings[4]!.throughBridge[string - 1]!),
		)!;
		expect(found).toMatchObject({verdict: 'fault', diagnosis: {verdict: 'string-slips', string: 5}});
	});

	test('all alike is the tuner, not the guitar', () => {
		expect(
			recheckOf(
				yesterday,
				reads(() => 8),
			)!.diagnosis.verdict,
		).toBe('all-alike');
	});

	test('nothing read, nothing said; no sheet is a bug', () => {
		expect(recheckOf(yesterday, [])).toBeUndefined();
		expect(() =>
			recheckOf(
				[],
				reads(() => 0),
			),
		).toThrow('recheckOf: expected yesterday to hold a filled sheet');
	});
});
