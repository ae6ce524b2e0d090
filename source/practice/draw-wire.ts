import type {Rng} from '../numeric/rng.ts';
import {around, between, roughly} from './draws.ts';
import type {GuitarString, StringSpec, Wire} from './guitar.ts';

const inchM = 0.0254;
const steelKgPerM3 = 7850;

/**
 * A string of this kind as it comes from a packet. Spread around the nominal:
 * diameter ±1 % (wire makers allow ±0.0003 in; physics of music wire A228),
 * Young's modulus 190 to 205 GPa (sources disagree over that range), core of
 * wound strings ±5 % where not given, wrap mass ±2 %, strength −5 to +10 % of
 * the textbook 2211 MPa / (d/mm)^0.145 (Shigley). Nut friction below the
 * measured limits 0.17 plain and 0.26 wound (Groves & Kemp, Archives of
 * Acoustics, 2019). Spreads without a source are judgement.
 */
export function drawWire(rng: Rng, {gaugeM, wound, coreM}: StringSpec, frictionScale: number): Wire {
	const outerM = gaugeM * around(rng, 1, 0.007);
	const nominalCoreM = wound ? (coreM ?? usualCoreM(gaugeM)) : gaugeM;
	const coreDiameterM = wound ? nominalCoreM * around(rng, 1, coreM === undefined ? 0.05 : 0.015) : outerM;
	const modulusPa = between(rng, 190e9, 205e9);
	const coreAreaM2 = (Math.PI / 4) * coreDiameterM ** 2;
	const wrapM = (outerM - coreDiameterM) / 2;
	const wrapKgPerM = (Math.PI / 4) * steelKgPerM3 * Math.PI * wrapM * (coreDiameterM + wrapM) * around(rng, 1.01, 0.02);
	const textbookPa = 2211e6 / (coreDiameterM * 1000) ** 0.145;
	return {
		// The wrap carries a little.
		stretchStiffnessN: modulusPa * coreAreaM2 * (wound ? between(rng, 1, 1.03) : 1),
		bendStiffnessNM2: (modulusPa * Math.PI * coreDiameterM ** 4 * (wound ? between(rng, 1, 1.3) : 1)) / 64,
		massKgPerM: steelKgPerM3 * coreAreaM2 + (wound ? wrapKgPerM : 0),
		breakN: textbookPa * coreAreaM2 * between(rng, 0.95, 1.1),
		nutFriction: frictionScale * (wound ? between(rng, 0.07, 0.2) : between(rng, 0.05, 0.14)),
	};
}

/** Invented rule through cores that are plausible for common sets (no source): .0135 in at .024, .016 at .042, thinner in proportion above. */
export function usualCoreM(gaugeM: number): number {
	return (0.0135 + (gaugeM / inchM - 0.024) * (0.0025 / 0.018)) * inchM;
}

/** What a string still has to give: about 0.12 mm in all when new (some 20 cents on a first, 60 on a plain third), next to nothing when played in. */
export function drawGive(rng: Rng, isNew: boolean, stretchScale: number): GuitarString['give'] {
	const totalM = roughly(rng, isNew ? 0.12e-3 : 0.003e-3, 1.5) * stretchScale;
	const soonShare = between(rng, 0.6, 0.85);
	return {soonM: totalM * soonShare, lateM: totalM * (1 - soonShare)};
}
