import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {tensionAtPitch} from '../../source/physics/tension-at-pitch.ts';
import {assumedCoreM, axialStiffnessN, wireFrom} from '../../source/physics/wire.ts';

const inchM = 0.0254;
const gauge = fc.double({min: 0.007 * inchM, max: 0.03 * inchM, noNaN: true});

/** Own derivation, 648 mm, mass per length taken at pitch: tension in N, strain. Cores assumed. */
const referenceSet = [
	{
		note: 'E4',
		frequencyHz: 329.628,
		gauge: 0.009,
		core: undefined,
		massKgPerM: 3.2219e-4,
		tensionN: 58.8,
		strain: 0.00704,
	},
	{
		note: 'B3',
		frequencyHz: 246.942,
		gauge: 0.011,
		core: undefined,
		massKgPerM: 4.813e-4,
		tensionN: 49.3,
		strain: 0.00395,
	},
	{
		note: 'G3',
		frequencyHz: 195.998,
		gauge: 0.016,
		core: undefined,
		massKgPerM: 1.0183e-3,
		tensionN: 65.7,
		strain: 0.00249,
	},
	{
		note: 'D3',
		frequencyHz: 146.832,
		gauge: 0.024,
		core: 0.0135,
		massKgPerM: 1.9599e-3,
		tensionN: 70.97,
		strain: 0.00378,
	},
	{note: 'A2', frequencyHz: 110, gauge: 0.032, core: 0.0145, massKgPerM: 3.3967e-3, tensionN: 69.03, strain: 0.00319},
	{note: 'E2', frequencyHz: 82.407, gauge: 0.042, core: 0.016, massKgPerM: 5.7771e-3, tensionN: 65.89, strain: 0.0025},
] as const;

describe.each(referenceSet)('$note of the reference set', row => {
	const wire = wireFrom({
		gaugeM: row.gauge * inchM,
		wound: row.core !== undefined,
		...(row.core === undefined ? {} : {coreM: row.core * inchM}),
	});

	test('weighs what the reference set says', () => {
		expect(wire.massPerLengthKgPerM / row.massKgPerM).toBeCloseTo(1, 4);
	});

	test('pulls what the reference set says, once its convention is turned into ours', () => {
		const {tensionN, strain} = tensionAtPitch(wire, {frequencyHz: row.frequencyHz, speakingLengthM: 0.648});
		// The set divides no mass by (1 + strain): its tension is higher by that factor.
		expect((tensionN * (1 + strain)) / row.tensionN).toBeCloseTo(1, 3);
		expect(strain * (1 + strain)).toBeCloseTo(row.strain, 5);
	});
});

test('strain of a plain string does not depend on its gauge', () => {
	fc.assert(
		fc.property(gauge, gauge, fc.double({min: 100, max: 350, noNaN: true}), (one, other, frequencyHz) => {
			const strainOf = (gaugeM: number) =>
				tensionAtPitch(wireFrom({gaugeM, wound: false}), {frequencyHz, speakingLengthM: 0.648}).strain;
			expect(strainOf(one)).toBeCloseTo(strainOf(other), 12);
		}),
	);
});

test('a wound string is lighter than solid steel of its gauge and heavier than its core', () => {
	fc.assert(
		fc.property(fc.double({min: 0.016 * inchM, max: 0.08 * inchM, noNaN: true}), gaugeM => {
			const wound = wireFrom({gaugeM, wound: true});
			expect(wound.massPerLengthKgPerM).toBeLessThan(wireFrom({gaugeM, wound: false}).massPerLengthKgPerM);
			expect(wound.massPerLengthKgPerM).toBeGreaterThan(
				wireFrom({gaugeM: assumedCoreM(gaugeM), wound: false}).massPerLengthKgPerM,
			);
			expect(wound.coreDiameterM).toBeLessThan(gaugeM);
		}),
	);
});

test('the assumed core passes near the assumed cores of the reference set', () => {
	for (const {gauge: outer, core} of referenceSet) {
		if (core) expect(assumedCoreM(outer * inchM) / (core * inchM)).toBeCloseTo(1, 1);
	}
});

test('a first string of .009 in at E4 uses about half its strength', () => {
	const wire = wireFrom({gaugeM: 0.009 * inchM, wound: false});
	const {tensionN} = tensionAtPitch(wire, {frequencyHz: 329.628, speakingLengthM: 0.648});
	expect(tensionN / wire.breakingLoadN).toBeCloseTo(0.525, 2);
	expect(axialStiffnessN(wire)).toBeCloseTo(8348, -1);
});

test('a core as thick as the string is refused as a bug', () => {
	expect(() => wireFrom({gaugeM: 1e-3, wound: true, coreM: 1e-3})).toThrow(
		'wireFrom: expected coreM to be below gaugeM 0.001, got 0.001',
	);
	expect(() => wireFrom({gaugeM: 0, wound: false})).toThrow(
		'wireFrom: expected gaugeM to be positive and finite, got 0',
	);
});
