import {expect, test} from 'vitest';
import {plateVerdict} from '../../source/planning/plate-verdict.ts';

const level = (measures: number) => ({wishM: 0, toleranceM: 0.0003, measures});

test('a plate nobody measured is measured, however sure the belief', () => {
	expect(plateVerdict({mean: 0, sd: 1e-5}, level(0))).toBe('measure-again');
});

test('clearly within stands, clearly beyond is off', () => {
	expect(plateVerdict({mean: 0.00005, sd: 0.0001}, level(1))).toBe('stands');
	expect(plateVerdict({mean: 0.0009, sd: 0.0001}, level(1))).toBe('off');
});

test('near the edge a ruler is quicker than another claw step, but not for ever', () => {
	const near = {mean: 0.00032, sd: 0.0001};
	expect(plateVerdict(near, level(1))).toBe('measure-again');
	expect(plateVerdict(near, level(4))).toBe('off');
	expect(plateVerdict({...near, mean: 0.00028}, level(4))).toBe('stands');
});

test('the wish is the target', () => {
	expect(plateVerdict({mean: 0.002, sd: 0.00005}, {wishM: 0.002, toleranceM: 0.0003, measures: 1})).toBe('stands');
});

test('however late, a step that makes it clearly surer is made', () => {
	const near = {mean: 0.00026, sd: 0.0001};
	expect(plateVerdict(near, {...level(4), turned: 0.7})).toBe('stands');
	expect(plateVerdict(near, {...level(4), turned: 0.97})).toBe('off');
});
