import fc from 'fast-check';
import {expect, test} from 'vitest';
import {bendCents} from '../../source/physics/bend.ts';
import {activeTurnsForRate, extensionM, springRateNPerM} from '../../source/physics/helical-spring.ts';
import {idealFrequencyHz, idealTensionN} from '../../source/physics/ideal-string.ts';
import {
	inharmonicityCoefficient,
	inharmonicityFromStiffness,
	modeShiftCents,
} from '../../source/physics/inharmonicity.ts';
import {stringConstantsOf} from '../../source/physics/string-constants.ts';
import {tensionAtPitch} from '../../source/physics/tension-at-pitch.ts';
import {wireFrom} from '../../source/physics/wire.ts';
import {minimumStrengthPa} from '../../source/physics/wire-strength.ts';

const positive = (min: number, max: number) => fc.double({min, max, noNaN: true});

test('four times the tension is an octave, twice the length is an octave down', () => {
	fc.assert(
		fc.property(
			positive(10, 150),
			positive(0.3, 0.8),
			positive(1e-4, 1e-2),
			(tensionN, speakingLengthM, massPerLengthKgPerM) => {
				const f = idealFrequencyHz({tensionN, speakingLengthM, massPerLengthKgPerM});
				expect(idealFrequencyHz({tensionN: 4 * tensionN, speakingLengthM, massPerLengthKgPerM}) / f).toBeCloseTo(2, 10);
				expect(idealFrequencyHz({tensionN, speakingLengthM: 2 * speakingLengthM, massPerLengthKgPerM}) / f).toBeCloseTo(
					0.5,
					10,
				);
				expect(idealTensionN({frequencyHz: f, speakingLengthM, massPerLengthKgPerM}) / tensionN).toBeCloseTo(1, 10);
			},
		),
	);
	expect(() => idealFrequencyHz({tensionN: 0, speakingLengthM: 0.6, massPerLengthKgPerM: 1e-3})).toThrow(
		'idealFrequencyHz: expected tensionN to be positive and finite, got 0',
	);
});

test('inharmonicity by diameter and by open stiffness are the same number', () => {
	fc.assert(
		fc.property(positive(0.2e-3, 0.6e-3), positive(80, 350), (gaugeM, frequencyHz) => {
			const wire = wireFrom({gaugeM, wound: false});
			const {tensionN} = tensionAtPitch(wire, {frequencyHz, speakingLengthM: 0.648});
			const byDiameter = inharmonicityCoefficient({...wire, tensionN, speakingLengthM: 0.648});
			const {openStiffness} = stringConstantsOf(wire, {frequencyHz, scaleLengthM: 0.648});
			expect(inharmonicityFromStiffness(openStiffness) / byDiameter).toBeCloseTo(1, 9);
		}),
	);
});

test('higher modes lie further up, and a string without stiffness has none of it', () => {
	expect(modeShiftCents(0, 7)).toBe(0);
	expect(modeShiftCents(1e-4, 2)).toBeGreaterThan(modeShiftCents(1e-4, 1));
});

test('a bend only sharpens, more for a stiffer string, alike to both sides', () => {
	fc.assert(
		fc.property(positive(0.001, 0.15), positive(40, 300), (angle, constant) => {
			expect(bendCents(angle, constant)).toBeGreaterThan(0);
			expect(bendCents(-angle, constant)).toBeCloseTo(bendCents(angle, constant), 12);
			expect(bendCents(angle, constant + 50)).toBeGreaterThan(bendCents(angle, constant));
		}),
	);
	expect(() => bendCents(2, 100)).toThrow(RangeError);
});

test('spring rate and turns are each other’s inverse, and nothing opens below the initial tension', () => {
	fc.assert(
		fc.property(
			positive(0.5e-3, 2e-3),
			positive(5e-3, 15e-3),
			positive(5, 60),
			(wireDiameterM, coilDiameterM, activeTurns) => {
				const spring = {wireDiameterM, coilDiameterM, activeTurns, shearModulusPa: 80e9};
				const rateNPerM = springRateNPerM(spring);
				expect(activeTurnsForRate({...spring, rateNPerM}) / activeTurns).toBeCloseTo(1, 10);
				expect(extensionM({pullN: 10, initialTensionN: 12, rateNPerM})).toBe(0);
				expect(extensionM({pullN: 22, initialTensionN: 12, rateNPerM}) * rateNPerM).toBeCloseTo(10, 10);
			},
		),
	);
});

test('thinner wire is stronger per area, without a jump where the table ends', () => {
	for (let mils = 6; mils < 40; mils += 0.25) {
		const [thin, thick] = [minimumStrengthPa(mils * 0.0254e-3), minimumStrengthPa((mils + 0.25) * 0.0254e-3)];
		expect(thin).toBeGreaterThan(thick);
		expect(thin / thick).toBeLessThan(1.02);
	}
});
