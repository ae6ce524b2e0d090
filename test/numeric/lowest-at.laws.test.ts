import fc from 'fast-check';
import {expect, test} from 'vitest';
import {lowestAt} from '../../source/numeric/lowest-at.ts';

const place = fc.double({min: -0.9, max: 0.9, noNaN: true});

test('the bottom of a parabola, and of a valley with a kink and unequal sides, is found within the tolerance', () => {
	fc.assert(
		fc.property(place, fc.double({min: 0.1, max: 10, noNaN: true}), (bottom, steep) => {
			const range = {low: -1, high: 1, tolerance: 1e-5};
			expect(Math.abs(lowestAt(x => (x - bottom) ** 2, range) - bottom)).toBeLessThan(2e-5);
			const kinked = (x: number) => (x < bottom ? bottom - x : steep * (x - bottom));
			expect(Math.abs(lowestAt(kinked, range) - bottom)).toBeLessThan(2e-5);
		}),
	);
});

test('a function that only falls is lowest at the end', () => {
	expect(lowestAt(x => -x, {low: -1, high: 1, tolerance: 1e-6})).toBeCloseTo(1, 5);
});
