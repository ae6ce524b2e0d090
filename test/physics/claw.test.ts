import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {
	clawAdvanceForAngleM,
	clawTurnsForHeight,
	momentPerClawMetreNm,
	softening,
	springRateNmPerRad,
	tiltAtOncePerMetre,
} from '../../source/physics/claw.ts';

// Own derivation throughout: no published dimensions or responses of a knife-edge bridge were found.

const springs = fc.record({
	count: fc.integer({min: 1, max: 6}),
	rate: fc.double({min: 500, max: 5000, noNaN: true}),
	arm: fc.double({min: 0.02, max: 0.06, noNaN: true}),
});

describe('once all is back at pitch', () => {
	test('a turn of pitch p changes the angle by p over the spring arm, whatever the springs', () => {
		fc.assert(
			fc.property(springs, fc.double({min: 0.0005, max: 0.003, noNaN: true}), ({count, rate, arm}, pitchM) => {
				const rotational = springRateNmPerRad(count, rate, arm);
				// With every tension as before, K Δθ = (K / a) p.
				const angle = (momentPerClawMetreNm(rotational, arm) * pitchM) / rotational;
				expect(angle).toBeCloseTo(pitchM / arm, 12);
				expect(clawAdvanceForAngleM(angle, arm)).toBeCloseTo(pitchM, 12);
			}),
		);
	});

	test('turns for a height: hk g / (e p)', () => {
		// 1 mm at 35 mm behind the edge, hooks 40 mm below it, 1.7 mm a turn.
		expect(clawTurnsForHeight(0.001, {springArmM: 0.04, tailArmM: 0.035, pitchM: 0.0017})).toBeCloseTo(0.6723, 4);
	});
});

describe('at once', () => {
	test('the strings hold most of it: a share sigma = K / (K + h² Σ k) of what comes at pitch', () => {
		// Reference set of our own derivations: h 12 mm, hk 40 mm, three springs of 2.0 N/mm, Σ k 176 kN/m: sigma .275.
		const rate = springRateNmPerRad(3, 2000, 0.04);
		const strings = 0.012 ** 2 * 176e3;
		expect(tiltAtOncePerMetre(rate, 0.04, strings) * 0.04).toBeCloseTo(0.275, 3);
	});
});

test('contacts behind the edge soften the springs by their share of the moment', () => {
	expect(softening(380, 0, 9.6)).toBe(0);
	expect(softening(380, 0.007, 9.6)).toBeCloseTo(0.2771, 4);
});
