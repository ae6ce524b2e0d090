import {array, assert, integer, maxSafeInteger, property} from 'fast-check';
import {mean, sampleKurtosis, sampleSkewness, standardDeviation} from 'simple-statistics';
import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';

const draw = <T>(count: number, next: () => T): T[] => Array.from({length: count}, next);

describe('laws of rngFrom()', () => {
	test('same seeds, same stream', () => {
		assert(
			property(array(maxSafeInteger(), {minLength: 1, maxLength: 4}), seeds => {
				const [one, other] = [rngFrom(...seeds), rngFrom(...seeds)];
				expect(draw(20, one.uniform)).toEqual(draw(20, other.uniform));
				expect(draw(20, one.normal)).toEqual(draw(20, other.normal));
			}),
		);
	});

	test('neighbouring seeds give unrelated streams', () => {
		assert(
			property(integer(), seed => {
				const [one, other] = [rngFrom(seed), rngFrom(seed + 1)];
				expect(draw(3, one.uniform)).not.toEqual(draw(3, other.uniform));
			}),
		);
		// First draws of 4000 neighbouring seeds are themselves uniform: mean 1/2, sd 1/√12, each within 4 standard errors.
		const first = draw(4000, () => 0).map((_, seed) => rngFrom(7, seed).uniform());
		expect(Math.abs(mean(first) - 0.5)).toBeLessThan((4 * Math.sqrt(1 / 12)) / Math.sqrt(4000));
		expect(Math.abs(standardDeviation(first) - Math.sqrt(1 / 12))).toBeLessThan(0.02);
	});

	test('order and number of seeds count', () => {
		expect(rngFrom(1, 2).uniform()).not.toBe(rngFrom(2, 1).uniform());
		expect(rngFrom(1).uniform()).not.toBe(rngFrom(1, 0).uniform());
		expect(rngFrom(2 ** 32).uniform()).not.toBe(rngFrom(0).uniform());
	});

	test('uniform() stays in [0, 1)', () => {
		const {uniform} = rngFrom(3);
		for (const value of draw(10_000, uniform)) {
			expect(value).toBeGreaterThanOrEqual(0);
			expect(value).toBeLessThan(1);
		}
	});

	test('normal() has the moments of a standard normal', () => {
		// 40 000 draws: standard errors of mean, sd, skewness, kurtosis are 0.005, 0.0035, 0.012, 0.025; four of each allowed.
		const values = draw(40_000, rngFrom(11).normal);
		expect(Math.abs(mean(values))).toBeLessThan(0.02);
		expect(Math.abs(standardDeviation(values) - 1)).toBeLessThan(0.014);
		expect(Math.abs(sampleSkewness(values))).toBeLessThan(0.05);
		expect(Math.abs(sampleKurtosis(values))).toBeLessThan(0.1);
	});

	test('refuses no seed and broken seeds', () => {
		expect(() => rngFrom()).toThrow('rngFrom: expected seeds to be one or more whole numbers, got none');
		expect(() => rngFrom(0.5)).toThrow(RangeError);
		expect(() => rngFrom(1, Number.NaN)).toThrow(RangeError);
	});
});
