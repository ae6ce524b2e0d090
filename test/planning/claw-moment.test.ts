import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {clawChances, isLookWorth, isTurnWorth} from '../../source/planning/claw-moment.ts';
import type {ClawSense} from '../../source/planning/claw-sense.ts';

const goal = {wishM: 0, toleranceM: 0.0003, screwPitchM: 0.0017};

/** A plate seen to stand so high at pitch, give or take, on a bridge whose acting arm is known to a share. */
function seen(tailMm: number, sdMm: number, armShare: number): ClawSense {
	return {
		tailM: tailMm / 1000,
		logArm: Math.log(0.031),
		tailVariance: (sdMm / 1000) ** 2,
		shared: 0,
		armVariance: armShare ** 2,
		tailArmM: 0.035,
	};
}

describe('whether to turn', () => {
	test('a plate far off is worth a turn, one that stands as wished is not', () => {
		expect(isTurnWorth(clawChances(seen(2, 0.1, 0.09), goal))).toBe(true);
		expect(isTurnWorth(clawChances(seen(0.05, 0.1, 0.09), goal))).toBe(false);
	});

	test('one that nobody can tell is not turned by a guess', () => {
		expect(isTurnWorth(clawChances(seen(0.2, 3, 0.09), goal))).toBe(false);
	});

	test('the wish is what counts', () => {
		expect(isTurnWorth(clawChances(seen(2, 0.1, 0.09), {...goal, wishM: 0.002}))).toBe(false);
	});
});

describe('measuring again', () => {
	test('a second measure where one leaves the turn unsure', () => {
		expect(isLookWorth(clawChances(seen(1, 0.15, 0.03), goal))).toBe(true);
		expect(isLookWorth(clawChances(seen(1, 0.08, 0.03), goal))).toBe(false);
	});
});

test('law: knowing more of where the plate stands never makes the turn less sure, and chances are chances', () => {
	fc.assert(
		fc.property(
			fc.double({min: -5, max: 5, noNaN: true}),
			fc.double({min: 0.02, max: 2, noNaN: true}),
			fc.double({min: 0.01, max: 0.15, noNaN: true}),
			(tail, sd, arm) => {
				const {asItIs, turnedNow, turnedSurely} = clawChances(seen(tail, sd, arm), goal);
				for (const each of [asItIs, turnedNow, turnedSurely]) {
					expect(each).toBeGreaterThanOrEqual(0);
					expect(each).toBeLessThanOrEqual(1);
				}

				expect(turnedSurely).toBeGreaterThanOrEqual(turnedNow - 1e-12);
			},
		),
	);
});
