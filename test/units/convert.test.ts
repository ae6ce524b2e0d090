import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {
	degreesFromRadians,
	forceUnits,
	lengthUnits,
	metresFromMm,
	metresFromThou,
	mmFrom,
	mmFromThou,
	mmTo,
	newtonsFrom,
	newtonsTo,
	radiansFromDegrees,
	thouFromMm,
} from '../../source/units/convert.ts';
import {ninetyPercent} from '../../source/numeric/normal.ts';
import {halfWidth} from '../../source/units/spread.ts';

const number = fc.double({min: -1e6, max: 1e6, noNaN: true});

describe('laws', () => {
	test('every conversion is undone by its inverse', () => {
		fc.assert(
			fc.property(number, value => {
				for (const unit of lengthUnits) {
					expect(mmTo(mmFrom(value, unit), unit)).toBeCloseTo(value, 6);
				}

				for (const unit of forceUnits) {
					expect(newtonsTo(newtonsFrom(value, unit), unit)).toBeCloseTo(value, 6);
				}

				expect(thouFromMm(mmFromThou(value))).toBeCloseTo(value, 6);
				expect(degreesFromRadians(radiansFromDegrees(value))).toBeCloseTo(value, 6);
			}),
		);
	});

	test('the two ways from a gauge to metres agree', () => {
		fc.assert(
			fc.property(number, thou => {
				expect(metresFromThou(thou)).toBeCloseTo(metresFromMm(mmFromThou(thou)), 9);
			}),
		);
	});
});

test('one wish in two unit systems: the reference set pulls 379.7 N, 85.4 lbf, 38.72 kgf', () => {
	// Three roundings of one sum; half of each last digit.
	expect(Math.abs(newtonsTo(379.7, 'lbf') - 85.4)).toBeLessThan(0.05);
	expect(Math.abs(newtonsTo(379.7, 'kgf') - 38.72)).toBeLessThan(0.01);
});

test('the half-width after "±" holds nine tenths of a Gaussian', () => {
	// Error function by its series, not by a table: erf(1.645 / √2) = 0.9000.
	const x = ninetyPercent / Math.SQRT2;
	let [sum, term] = [0, x];
	for (let n = 0; n < 60; n += 1) {
		sum += term / (2 * n + 1);
		term *= -(x * x) / (n + 1);
	}

	expect((2 / Math.sqrt(Math.PI)) * sum).toBeCloseTo(0.9, 4);
	expect(halfWidth({mean: 5, sd: 2})).toBeCloseTo(3.29, 9);
});
