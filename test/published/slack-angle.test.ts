import {expect, test} from 'vitest';
import {travelAt} from '../../source/physics/lever.ts';
import {tensionAtPitch} from '../../source/physics/tension-at-pitch.ts';
import {wireFrom} from '../../source/physics/wire.ts';

// A student report of a university design course (2008) on an idealised pivoting bridge: E 200 GPa, ρ 7800 kg/m³;
// the G string is slack at 6.1°, and every string but the high E by 10°. A weak source, but a real check out of
// sample: the first number fixes the arm, the two other statements follow or do not. Scale 647.7 mm and a plain G
// are our reading of it.
const degree = Math.PI / 180;
const speakingLengthM = 0.6477;

function stretchM(frequencyHz: number): number {
	const gaugeM = 0.4e-3; // Cancels: strain of a plain string does not depend on gauge.
	const wire = wireFrom({gaugeM, wound: false});
	const theirs = {...wire, youngModulusPa: 200e9, massPerLengthKgPerM: (wire.massPerLengthKgPerM * 7800) / 7850};
	const {strain} = tensionAtPitch(theirs, {frequencyHz, speakingLengthM});
	return (strain / (1 + strain)) * speakingLengthM;
}

const armM = stretchM(195.998) / Math.sin(6.1 * degree);
const isSlackAt = (frequencyHz: number, angleRad: number) =>
	stretchM(frequencyHz) + travelAt({armM, setbackM: 0}, -angleRad) <= 0;

test('with G slack at 6.1°, B is slack by 10°', () => {
	expect(isSlackAt(246.942, 10 * degree)).toBe(true);
});

test('with G slack at 6.1°, high E is not slack at 10°', () => {
	expect(isSlackAt(329.628, 10 * degree)).toBe(false);
});

test('the arm it implies is that of a real bridge, 10 to 20 mm', () => {
	expect(armM).toBeGreaterThan(0.01);
	expect(armM).toBeLessThan(0.02);
});
