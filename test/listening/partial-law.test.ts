import fc from 'fast-check';
import {expect, test} from 'vitest';
import {
	firstPartialHz,
	harmonicLaw,
	lawWithFirstPartial,
	partialHz,
	stiffnessShiftCents,
} from '../../source/listening/partial-law.ts';
import {centsBetween} from '../../source/music/pitch.ts';

const laws = fc.record({
	idealHz: fc.double({min: 40, max: 700, noNaN: true}),
	stiffness: fc.double({min: 0, max: 2e-3, noNaN: true}),
});
const numbers = fc.integer({min: 1, max: 30});

test('a flexible string has whole multiples', () => {
	fc.assert(
		fc.property(numbers, n => {
			expect(partialHz({idealHz: 110, stiffness: 0}, n)).toBeCloseTo(110 * n, 9);
		}),
	);
});

test('the 12th-fret harmonic sounds the even partials of the open string', () => {
	fc.assert(
		fc.property(laws, numbers, (law, m) => {
			expect(partialHz(harmonicLaw(law), m) / partialHz(law, 2 * m)).toBeCloseTo(1, 12);
		}),
	);
});

test('the shift by stiffness is the interval from the flexible partial', () => {
	fc.assert(
		fc.property(laws, numbers, (law, n) => {
			expect(stiffnessShiftCents(law.stiffness, n)).toBeCloseTo(centsBetween(partialHz(law, n), n * law.idealHz), 6);
		}),
	);
});

test('a law is found again from its first partial', () => {
	fc.assert(
		fc.property(laws, law => {
			expect(lawWithFirstPartial(firstPartialHz(law), law.stiffness).idealHz / law.idealHz).toBeCloseTo(1, 12);
		}),
	);
});
