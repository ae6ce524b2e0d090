import {assert, double, property, record} from 'fast-check';
import {describe, expect, test} from 'vitest';
import {frontWireM, type Wrapped} from '../../source/practice/nut.ts';

const strains = (wrapped: Wrapped, frontPathM: number, frontM: number): [number, number] => [
	Math.max(0, frontPathM / frontM - 1),
	Math.max(0, wrapped.behindPathM / (wrapped.frontM + wrapped.behindM - frontM) - 1),
];

const anyWrapped = record({
	frontM: double({min: 0.64, max: 0.65, noNaN: true}),
	behindM: double({min: 0.0995, max: 0.1005, noNaN: true}),
	behindPathM: double({min: 0.0998, max: 0.101, noNaN: true}),
	grip: double({min: 1, max: 1.08, noNaN: true}),
});
const anyPathM = double({min: 0.638, max: 0.655, noNaN: true});

describe('laws of frontWireM()', () => {
	test('afterwards neither side pulls harder than the capstan can hold', () => {
		assert(
			property(anyWrapped, anyPathM, (wrapped, pathM) => {
				const [front, behind] = strains(wrapped, pathM, frontWireM(wrapped, pathM));
				expect(front).toBeLessThanOrEqual(behind * wrapped.grip + 1e-12);
				expect(behind).toBeLessThanOrEqual(front * wrapped.grip + 1e-12);
			}),
		);
	});

	test('within the dead band nothing slides; clamped, nothing ever does', () => {
		assert(
			property(anyWrapped, anyPathM, (wrapped, pathM) => {
				const [front, behind] = strains(wrapped, pathM, wrapped.frontM);
				const holds = front <= behind * wrapped.grip && behind <= front * wrapped.grip;
				if (holds) expect(frontWireM(wrapped, pathM)).toBe(wrapped.frontM);
				expect(frontWireM({...wrapped, grip: Number.POSITIVE_INFINITY}, pathM)).toBe(wrapped.frontM);
			}),
		);
	});

	test('sliding is done with: asked again, nothing moves', () => {
		assert(
			property(anyWrapped, anyPathM, (wrapped, pathM) => {
				const frontM = frontWireM(wrapped, pathM);
				const after = {...wrapped, frontM, behindM: wrapped.frontM + wrapped.behindM - frontM};
				expect(Math.abs(frontWireM(after, pathM) - frontM)).toBeLessThan(1e-12);
			}),
		);
	});

	test('no friction: both sides are stretched alike, whatever the way there', () => {
		assert(
			property(anyWrapped, anyPathM, anyPathM, (wrapped, overM, pathM) => {
				const smooth = {...wrapped, grip: 1};
				const overFrontM = frontWireM(smooth, overM);
				const over = {...smooth, frontM: overFrontM, behindM: wrapped.frontM + wrapped.behindM - overFrontM};
				const [front, behind] = strains(smooth, pathM, frontWireM(over, pathM));
				expect(Math.abs(front - behind)).toBeLessThan(1e-10);
			}),
		);
	});
});

test('plain string, friction .17, wrapped 10 degrees: at most 25.7 cents are trapped', () => {
	// Friction limit of tinned steel measured by Groves & Kemp, Archives of Acoustics, 2019; the cents follow from exp(friction × angle).
	const grip = Math.exp((0.17 * 10 * Math.PI) / 180);
	const wrapped: Wrapped = {frontM: 0.6455, behindM: 0.1, behindPathM: 0.1002, grip};
	const [front, behind] = strains(wrapped, 0.648, frontWireM(wrapped, 0.648));
	expect(600 * Math.log2(front / behind)).toBeCloseTo(25.7, 1);
});
