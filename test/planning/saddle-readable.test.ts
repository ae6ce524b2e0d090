import {describe, expect, test} from 'vitest';
import {frettedCentsAt, saddleModelOf} from '../../source/estimation/saddle-model.ts';
import {wireFrom} from '../../source/physics/wire.ts';
import {areNearPitch} from '../../source/planning/saddle-readable.ts';

/** Fretted 12th over its harmonic with the saddle on the scale line, the string this far from an E4 of a ten. */
function frettedCents(offCents: number): number {
	const model = saddleModelOf({
		wire: wireFrom({gaugeM: 10 * 25.4e-6, wound: false}),
		frequencyHz: 329.63 * 2 ** (offCents / 1200),
		scaleLengthM: 0.648,
		actionM: 2e-3,
		nutHeightM: 0.5e-3,
		giveShare: 0.15,
	});
	return frettedCentsAt(model, 0);
}

describe('read before it is in tune', () => {
	test('eight cents off change the intonation of a string by far less than a pluck tells', () => {
		// Own derivation, by the model of fretted notes: sharpness goes with stretch over tension, and 8 cents are 0.9 % of tension.
		expect(frettedCents(0)).toBeGreaterThan(3);
		expect(Math.abs(frettedCents(8) - frettedCents(0))).toBeLessThan(0.2);
	});

	test('all must surely be near; one slack, unread, far or doubtful string is enough to tune first', () => {
		const near = {mean: 5, sd: 1};
		expect(areNearPitch([near, {mean: -6, sd: 1}])).toBe(true);
		expect(areNearPitch([near, undefined])).toBe(false);
		expect(areNearPitch([near, {mean: 9, sd: 0.1}])).toBe(false);
		expect(areNearPitch([near, {mean: 0, sd: 6}])).toBe(false);
	});
});
