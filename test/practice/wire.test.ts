import {assert, double, property} from 'fast-check';
import {describe, expect, test} from 'vitest';
import type {Wire} from '../../source/practice/guitar.ts';
import {centsBetween, modeHz, tensionForHz} from '../../source/practice/wire.ts';

const plain = (diameterM: number, modulusPa: number, densityKgPerM3: number): Wire => ({
	stretchStiffnessN: (modulusPa * Math.PI * diameterM ** 2) / 4,
	bendStiffnessNM2: (modulusPa * Math.PI * diameterM ** 4) / 64,
	massKgPerM: (densityKgPerM3 * Math.PI * diameterM ** 2) / 4,
	breakN: 1e4,
	nutFriction: 0,
});

describe('modeHz() against published values', () => {
	test('hinged steel wire: mode n is sharp by 3.4e13 n² d² / (f² l⁴) cents, d and l in cm', () => {
		// R. W. Young, J. Acoust. Soc. Am. 24(3), 1952, for E/ρ = 25.5e10 cm²/s²; a first-order formula with
		// a constant printed to two digits, so 1 % and wires whose shift is small.
		const diameterM = 0.001;
		const lengthM = 0.62;
		const wire = plain(diameterM, 25.5e6 * 7850, 7850);
		for (const tensionN of [600, 700, 800]) {
			const idealHz = modeHz({...wire, bendStiffnessNM2: 0}, tensionN, lengthM, 0, 1);
			for (const mode of [1, 2, 3]) {
				const cents = centsBetween(modeHz(wire, tensionN, lengthM, 0, mode), mode * idealHz);
				const young = (3.4e13 * mode ** 2 * 0.1 ** 2) / (idealHz ** 2 * 62 ** 4);
				expect(Math.abs(cents / young - 1)).toBeLessThan(0.01);
			}
		}
	});

	test('one end clamped: the nylon E of the printed set is sharp by 1 + B0, B0 = .00190', () => {
		// Anderson & Beausoleil, J. Acoust. Soc. Am. 156(1), 683, 2024, normal-tension set, 650 mm:
		// E4 r .356 mm, T0 68.6 N, E_eff 8.33 GPa, B0 .00190 (last digit printed: ±.00001 with the rounding of the inputs).
		const wire: Wire = {...plain(2 * 0.356e-3, 8.33e9, 1050), massKgPerM: 0.374e-3};
		const ideal = modeHz({...wire, bendStiffnessNM2: 0}, 68.6, 0.65, 1);
		expect(Math.abs(modeHz(wire, 68.6, 0.65, 1) / ideal - 1 - 0.0019)).toBeLessThan(0.00004);
	});

	test('worked example: 392.0 Hz, .489 m, r .483 mm, 7833 kg/m³ needs 843.8 N', () => {
		// Musical-mathematics book, Mersenne's law: no stiffness, mass at pitch; stretching is made negligible here. Printed to 0.1 N.
		const wire = {...plain(2 * 0.483e-3, 200e9, 7833), stretchStiffnessN: 1e12, bendStiffnessNM2: 0};
		expect(Math.abs(tensionForHz(wire, 392, 0.489, 0) - 843.8)).toBeLessThan(0.15);
	});
});

describe('own derivations about a wire', () => {
	// Plain strings, E 203.4 GPa, ρ 7850, 648 mm, ends fixed, no stiffness: pitch after the far end moves by delta. Two decimals.
	test.each([
		[-0.5, [-322.29, -188.97, -101.27]],
		[-0.1, [-55.53, -34.61, -19.32]],
		[0.1, [52.16, 33.27, 18.89]],
		[0.5, [234.0, 154.8, 90.52]],
		[1, [417.76, 285.88, 172.34]],
	] as const)('%f mm more way', (deltaMm, cents) => {
		const gaugesIn = [0.016, 0.011, 0.009];
		const targetsHz = [195.9977, 246.9417, 329.6276];
		for (const [index, expected] of cents.entries()) {
			const wire = {...plain(gaugesIn[index]! * 0.0254, 203.4e9, 7850), bendStiffnessNM2: 0};
			const tensionN = tensionForHz(wire, targetsHz[index]!, 0.648, 0);
			const unstretchedM = 0.648 / (1 + tensionN / wire.stretchStiffnessN);
			const lengthM = 0.648 + deltaMm / 1000;
			const hz = modeHz(wire, wire.stretchStiffnessN * (lengthM / unstretchedM - 1), lengthM, 0);
			expect(Math.abs(centsBetween(hz, targetsHz[index]!) - expected)).toBeLessThan(0.011);
		}
	});
});

describe('laws of wire', () => {
	const length = double({min: 0.5, max: 0.7, noNaN: true});
	const tension = double({min: 5, max: 120, noNaN: true});
	const ends = double({min: 0, max: 2, noNaN: true});

	test('tensionForHz() undoes modeHz()', () => {
		const wire = plain(0.4e-3, 200e9, 7850);
		assert(
			property(length, tension, ends, (lengthM, tensionN, endStiffness) => {
				const hz = modeHz(wire, tensionN, lengthM, endStiffness);
				expect(Math.abs(tensionForHz(wire, hz, lengthM, endStiffness) / tensionN - 1)).toBeLessThan(1e-8);
			}),
		);
	});

	test('an unstretchable wire without stiffness: twice the tension is 600 cents', () => {
		const wire = {...plain(0.3e-3, 200e9, 7850), stretchStiffnessN: 1e12, bendStiffnessNM2: 0};
		assert(
			property(length, tension, (lengthM, tensionN) => {
				const ratio = centsBetween(modeHz(wire, 2 * tensionN, lengthM, 0), modeHz(wire, tensionN, lengthM, 0));
				expect(ratio).toBeCloseTo(600, 5);
			}),
		);
	});
});
