import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import type {StringNumber} from '../../../source/music/string-number.ts';
import {leftoverCauses, leftoverOf} from '../../../source/session/report/leftover.ts';

/** Cents per string for a small tip of the bridge: stiff plain third and thick sixth most, thin first least (own derivation for a 9-42 set). */
const response = [18.9, 33.3, 52.2, 35, 41, 52];

function rows(change: readonly number[]) {
	return change.map((changeCents, index) => ({
		string: (index + 1) as StringNumber,
		changeCents,
		responseCents: response[index]!,
	}));
}

describe('leftoverOf() names the pattern', () => {
	test('all within reading scatter: home', () => {
		expect(leftoverOf(rows([1, -2, 0.5, 3, -1, 0]))).toMatchObject({cause: 'home', worstCents: 3, fit: 1});
	});

	test('in proportion to the response: the plate did not come home', () => {
		const found = leftoverOf(rows(response.map(cents => -0.3 * cents)));
		expect(found.cause).toBe('plate');
		expect(found.fit).toBeCloseTo(1, 9);
		expect(found.worstCents).toBeCloseTo(-15.66, 6);
	});

	test('one string off: that one slips', () => {
		expect(leftoverOf(rows([0.3, -0.5, 0.2, -9, 0.4, 0]))).toMatchObject({cause: 'one-string', string: 4});
	});

	test('all off alike: reference or temperature', () => {
		expect(leftoverOf(rows([6, 5.5, 6.4, 6, 5.8, 6.1])).cause).toBe('all-equal');
	});

	test('two strings off by themselves: nothing is claimed', () => {
		expect(leftoverOf(rows([8, 0, -8, 0, 0, 0])).cause).toBe('unclear');
	});

	test('without strings there is no pattern', () => {
		expect(() => leftoverOf([])).toThrow(/at least one string, got none/);
	});
});

describe('laws', () => {
	const changes = fc.array(fc.double({min: -60, max: 60, noNaN: true}), {minLength: 6, maxLength: 6});

	test('the sign of the change does not matter to the cause', () => {
		fc.assert(
			fc.property(changes, change => {
				const there = leftoverOf(rows(change));
				const back = leftoverOf(rows(change.map(cents => -cents)));
				expect(back.cause).toBe(there.cause);
				expect(back.fit).toBeCloseTo(there.fit, 9);
			}),
		);
	});

	test('the scale of the response does not matter', () => {
		fc.assert(
			fc.property(changes, fc.double({min: 0.01, max: 100, noNaN: true}), (change, scale) => {
				const scaled = rows(change).map(row => ({...row, responseCents: scale * row.responseCents}));
				expect(leftoverOf(scaled).cause).toBe(leftoverOf(rows(change)).cause);
			}),
		);
	});

	test('the fit is a share', () => {
		fc.assert(
			fc.property(changes, change => {
				const {fit, cause} = leftoverOf(rows(change));
				expect(fit).toBeGreaterThanOrEqual(0);
				expect(fit).toBeLessThanOrEqual(1 + 1e-12);
				expect(leftoverCauses).toContain(cause);
			}),
		);
	});
});
