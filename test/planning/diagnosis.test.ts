import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {
	type DiagnosisCase,
	type DiagnosisEvent,
	type DiagnosisString,
	diagnose,
} from '../../source/planning/diagnosis.ts';

/**
 * Responses of a nine set at 648 mm: cents for +0.1 mm of travel, plain ones
 * as derived in the notes on plain strings (G3 52.16, B3 33.27, E4 18.89),
 * wound ones by their strains; own derivation, not published.
 */
const responses = [18.9, 33.3, 52.2, 35.0, 41.0, 52.0];
const total = responses.reduce((sum, each) => sum + each, 0);

const strings = (newness = 0): readonly DiagnosisString[] =>
	responses.map((mean, index) => ({
		responseCents: {mean, sd: 0.02 * mean},
		throughBridge: responses.map((other, at) => (at === index ? 1 : (-0.6 * other) / total)),
		newness,
	}));

const six = [0, 1, 2, 3, 4, 5];
const arm = (motion: 'dive' | 'pull-up' | 'bend'): DiagnosisEvent => ({kind: 'arm', motion});
const round = (cents: readonly number[]): readonly DiagnosisEvent[] =>
	cents.map((each, index) => ({kind: 'read', index, cents: each}));
const flat = six.map(() => 0);
const plate = (most: number) => responses.map(each => (most * each) / 52.2);

function given(events: readonly DiagnosisEvent[], change: Partial<DiagnosisCase> = {}): DiagnosisCase {
	return {
		strings: strings(),
		readingCents: 0.5,
		tailSdMm: 0.12,
		tailMmPerCent: -0.005,
		frictionCents: {mean: 0.9, sd: 0.4},
		events,
		...change,
	};
}

describe('what is named', () => {
	test('nothing when all strings come home', () => {
		expect(
			diagnose(given([...round(flat), arm('dive'), ...round(flat), arm('pull-up'), ...round(flat)]))?.verdict,
		).toBe('sound');
	});

	test('the plate, when all are off in proportion to the bridge and the other way after the other movement', () => {
		const events = [...round(flat), arm('dive'), ...round(plate(-8)), arm('pull-up'), ...round(plate(8))];
		expect(diagnose(given(events))?.verdict).toBe('plate');
	});

	test('the claw, when that stays and adds up', () => {
		const events = [...round(flat), arm('dive'), ...round(plate(-8)), arm('pull-up'), ...round(plate(-16))];
		expect(diagnose(given(events))?.verdict).toBe('claw');
	});

	test('after a dive alone, plate and claw cannot be told apart: read again', () => {
		const diagnosis = diagnose(given([...round(flat), arm('dive'), ...round(plate(-8))]));
		expect(diagnosis?.verdict).toBe('unclear');
		expect(diagnosis?.suspicions.slice(0, 2).map(({cause}) => cause)).toEqual(
			expect.arrayContaining(['plate', 'claw']),
		);
	});

	test('the tuner, when all change alike whatever they answer to the bridge', () => {
		const events = [...round(flat), arm('dive'), ...round(six.map(() => 6))];
		expect(diagnose(given(events))?.verdict).toBe('all-alike');
	});

	test('the one string that slips, with what it does to the others through the bridge', () => {
		const off = six.map(at => (at === 4 ? -9 : -9 * strings()[4]!.throughBridge[at]!));
		const diagnosis = diagnose(given([...round(flat), ...round(flat), arm('dive'), ...round(off)]));
		expect(diagnosis).toMatchObject({verdict: 'string-slips', index: 4});
		expect(diagnosis!.suspicions[0]!.sizeCents.mean).toBeCloseTo(-9, 0);
		expect(diagnosis!.suspicions[0]!.probability).toBeGreaterThan(0.6);
	});

	test('the saddle that creeps, when one string falls from pluck to pluck with nobody touching anything', () => {
		const at = (cents: number) => round(six.map(index => (index === 1 ? cents : 0)));
		const diagnosis = diagnose(given([...at(0), ...at(-6), ...at(-8.5), ...at(-9.5)]));
		expect(diagnosis).toMatchObject({verdict: 'saddle-creeps', index: 1});
	});

	test('new strings, when they fall on and on; settled ones are never said to stretch', () => {
		const falling = [0, -4, -8, -12, -16].flatMap(cents => round(six.map(() => cents)));
		expect(diagnose(given(falling, {strings: strings(1)}))?.verdict).toBe('stretching');
		expect(diagnose(given(falling))?.suspicions.map(({cause}) => cause)).not.toContain('stretching');
	});

	test('a surprise against what was believed, with no arm and no reading before it', () => {
		const before = {
			cents: flat,
			covariance: six.map(row => six.map(column => (row === column ? 0.25 : 0))),
		};
		expect(diagnose(given(round(six.map(() => 7)), {before}))?.verdict).toBe('all-alike');
		expect(diagnose(given(round([0, 0, 0.3, -0.4, 0, 0]), {before}))?.verdict).toBe('sound');
	});

	test('nothing can be said of nothing', () => {
		expect(diagnose(given([arm('dive')]))).toBeUndefined();
	});
});

describe('laws', () => {
	const cents = fc.array(fc.double({min: -40, max: 40, noNaN: true}), {minLength: 6, maxLength: 6});

	test('shares of belief add up to at most one, in order, and every size has a spread', () => {
		fc.assert(
			fc.property(cents, cents, (one, other) => {
				const {suspicions} = diagnose(given([...round(one), arm('dive'), ...round(other)]))!;
				const shares = suspicions.map(({probability}) => probability);
				expect(shares.reduce((sum, share) => sum + share, 0)).toBeLessThanOrEqual(1 + 1e-9);
				expect(shares).toEqual(shares.toSorted((a, b) => b - a));
				for (const {sizeCents, misfit} of suspicions) {
					expect(sizeCents.sd).toBeGreaterThanOrEqual(0);
					expect(Number.isFinite(misfit)).toBe(true);
				}
			}),
			{numRuns: 30},
		);
	});

	test('without a belief beforehand, a common offset of all readings changes nothing', () => {
		fc.assert(
			fc.property(cents, fc.double({min: -100, max: 100, noNaN: true}), (other, offset) => {
				const told = (by: number) =>
					diagnose(given([...round(flat.map(() => by)), arm('dive'), ...round(other.map(each => each + by))]))!;
				const [here, there] = [told(0), told(offset)];
				expect(there.verdict).toBe(here.verdict);
				expect(there.suspicions[0]!.probability).toBeCloseTo(here.suspicions[0]!.probability, 1);
			}),
			{numRuns: 20},
		);
	});

	test('a string that is not there is a bug', () => {
		expect(() => diagnose(given([{kind: 'read', index: 7, cents: 0}]))).toThrow(
			'diagnose: expected index to be 0 to 5, got 7',
		);
	});
});
