import {expect, test} from 'vitest';
import {
	coefficientAtFret,
	inharmonicityCoefficient,
	modeShiftCents,
	plainWireShiftConstant,
} from '../../source/physics/inharmonicity.ts';

test('shift of plain wire: 3.4e13 n²d²/(f₀²l⁴) in centimetres', () => {
	// R. W. Young, J. Acoust. Soc. Am. 24(3) (1952), with E/ρ = 25.5e10 cm²/s². Two digits printed: 1 %.
	// Per d²/l⁴ in cm⁻² instead of m⁻²: 10⁴ more.
	expect((plainWireShiftConstant(25.5e6) * 1e4) / 3.4e13).toBeCloseTo(1, 2);
});

test('shift of plain wire: 5.3e12 in inches', () => {
	// The same constant as quoted by a secondary source; two digits: 1 %.
	expect(Math.abs(plainWireShiftConstant(25.5e6) / 0.0254 ** 2 / 5.3e12 - 1)).toBeLessThan(0.01);
});

test('shift of mode 1 by d⁴/(81 L²T) in mils, inches and pounds-force', () => {
	// A piano technicians' rule quoted by a secondary source; E 29.5 million psi. Two digits: half a unit.
	const [mils, inches, poundsForce] = [40, 20, 150];
	const coefficient = inharmonicityCoefficient({
		youngModulusPa: 29.5e6 * 6894.757,
		coreDiameterM: mils * 0.0254e-3,
		tensionN: poundsForce * 4.4482216,
		speakingLengthM: inches * 0.0254,
	});
	const centsForSmall = (600 / Math.LN2) * coefficient;
	expect(Math.abs(mils ** 4 / (inches ** 2 * poundsForce * centsForSmall) - 81)).toBeLessThan(0.5);
});

test('a string with 100 cents at partial 10 stopped at fret 12 has about 100 at partial 6 stopped at fret 21', () => {
	// J. A. Kemp, SN Applied Sciences 2:636 (2020), abstract; both figures say "about": 5 cents.
	const atTwelve = (2 ** (100 / 600) - 1) / 10 ** 2;
	const open = atTwelve / coefficientAtFret(1, 12);
	expect(modeShiftCents(coefficientAtFret(open, 12), 10)).toBeCloseTo(100, 9);
	expect(Math.abs(modeShiftCents(coefficientAtFret(open, 21), 6) - 100)).toBeLessThan(5);
});
