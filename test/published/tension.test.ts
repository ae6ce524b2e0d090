import {expect, test} from 'vitest';
import {breakingLoadN} from '../../source/physics/breaking-load.ts';
import {idealFrequencyHz, idealTensionN, roundMassPerLengthKgPerM} from '../../source/physics/ideal-string.ts';

// Worked example in a book on musical mathematics by its author: a steel string
// tuned to 392.0 Hz, 0.489 m long, radius 0.483 mm, 7833 kg/m³.
// (The book's value in pounds-force does not agree with its own newtons and is not used.)
const example = {frequencyHz: 392, speakingLengthM: 0.489, radiusM: 0.483e-3, densityKgPerM3: 7833};

test('mass per length of the worked example is .00574 kg/m', () => {
	// Tolerance: last digit printed.
	expect(roundMassPerLengthKgPerM(example.densityKgPerM3, example.radiusM)).toBeCloseTo(0.00574, 5);
});

test('tension of the worked example is 843.8 N', () => {
	const massPerLengthKgPerM = roundMassPerLengthKgPerM(example.densityKgPerM3, example.radiusM);
	const tensionN = idealTensionN({...example, massPerLengthKgPerM});
	// Tolerance .15 N: radius and length are printed to three digits, mass to four.
	expect(Math.abs(tensionN - 843.8)).toBeLessThan(0.15);
	expect(idealFrequencyHz({...example, tensionN, massPerLengthKgPerM})).toBeCloseTo(392, 9);
});

test('the worked example breaks at 1766.3 N for a strength of 2.41 GPa', () => {
	// Tolerance .4 N: area from a radius of three digits, as printed.
	expect(Math.abs(breakingLoadN(2 * example.radiusM, 2.41e9) - 1766.3)).toBeLessThan(0.4);
});

test('the trade constant for plain steel in inches, mils and pounds-force is about 20833', () => {
	// T [lbf] = (f [Hz] · L [in] · d [mil] / K)², as quoted by a secondary source; density .2833 lb/in³.
	const [frequencyHz, inches, mils] = [100, 25.5, 10];
	const densityKgPerM3 = 0.2833 * (0.45359237 / 0.0254 ** 3);
	const tensionN = idealTensionN({
		frequencyHz,
		speakingLengthM: inches * 0.0254,
		massPerLengthKgPerM: roundMassPerLengthKgPerM(densityKgPerM3, (mils / 2) * 0.0254e-3),
	});
	const constant = (frequencyHz * inches * mils) / Math.sqrt(tensionN / 4.4482216);
	// Tolerance 25 (.12 %): the quoted density has four digits and enters by its root; the rest is rounding in the trade.
	expect(Math.abs(constant - 20833)).toBeLessThan(25);
});
