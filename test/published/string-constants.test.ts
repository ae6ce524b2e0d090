import {expect, test} from 'vitest';
import {idealTensionN} from '../../source/physics/ideal-string.ts';
import {
	effectiveYoungModulusPa,
	openStiffness,
	sensitivityFromDraw,
	stringConstantFromSensitivity,
} from '../../source/physics/string-constants.ts';
import {nylonBoard, nylonSet} from './nylon-set.ts';

// Source of every row: Anderson and Beausoleil 2024, see nylon-set.ts.

test.each(nylonSet)('$note: tension $tensionN N from $massGPerM g/m at pitch', row => {
	const tensionN = idealTensionN({
		frequencyHz: row.frequencyHz,
		speakingLengthM: nylonBoard.scaleLengthM,
		massPerLengthKgPerM: row.massGPerM / 1000,
	});
	// Tolerance .12 N: mass printed to .0005 g/m is .13 % of the lightest string, .09 N, and tension to .05 N.
	expect(Math.abs(tensionN - row.tensionN)).toBeLessThan(0.12);
});

test.each(nylonSet)('$note: string constant $stringConstant from sensitivity $sensitivity', row => {
	// Tolerance .11: sensitivity is printed to .05 and enters twice.
	expect(Math.abs(stringConstantFromSensitivity(row.sensitivity) - row.stringConstant)).toBeLessThan(0.11);
});

test.each(nylonSet)('$note: stiffness $openStiffness of the open string', row => {
	const stiffness = openStiffness({
		stringConstant: row.stringConstant,
		radiusM: row.radiusMm / 1000,
		scaleLengthM: nylonBoard.scaleLengthM,
	});
	// Tolerance: last digit printed, 1e-5; the radius has three digits.
	expect(Math.abs(stiffness - row.openStiffness)).toBeLessThan(1e-5);
});

test.each(nylonSet)('$note: effective Young modulus $modulusGPa GPa', row => {
	const modulusPa = effectiveYoungModulusPa(row.stringConstant, row.tensionN, row.radiusMm / 1000);
	// Tolerance .5 %: three-digit radius squared (.28 %), constant (.1 %), tension (.1 %).
	expect(Math.abs(modulusPa / (row.modulusGPa * 1e9) - 1)).toBeLessThan(0.005);
});

test('drawing the end of a 650 mm string by 3 mm for a whole tone means a sensitivity of 25', () => {
	// Printed as a whole number.
	expect(Math.abs(sensitivityFromDraw(0.65, 0.003, 200) - 25)).toBeLessThan(0.5);
});
