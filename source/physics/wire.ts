import {requirePositive} from '../numeric/require.ts';
import {breakingLoadN} from './breaking-load.ts';

/**
 * What a string is made of, before it is stretched.
 *
 * Convention, kept everywhere in this folder: `massPerLengthKgPerM` is the
 * mass of one metre of *unstretched* string, as weighed on the bench. A string
 * stretched by the strain ε spreads the same mass over more length, so what
 * vibrates has `massPerLengthKgPerM / (1 + ε)`. Tables that give the mass per
 * length at pitch differ from this by ε, at most 0.7 % (0.7 % in tension) for
 * a first string.
 */
export interface Wire {
	readonly wound: boolean;
	/** Over the wrap, m; equal to the core for a plain string. */
	readonly outerDiameterM: number;
	/** The wire that carries the pull, m. */
	readonly coreDiameterM: number;
	/** Of the core, Pa. */
	readonly youngModulusPa: number;
	/** Unstretched, wrap included, kg/m. */
	readonly massPerLengthKgPerM: number;
	/** Least pull that breaks a sound core, N. */
	readonly breakingLoadN: number;
}

/** Density of steel; of nickel-plated steel wrap too, its thin plating left out. kg/m³. */
export const steelDensityKgPerM3 = 7850;

/** Music wire, upper diameter in inches and Young's modulus in Pa (Shigley, 9th ed., table 10-5). */
const youngModulusByInch = [
	[0.0325, 203.4e9],
	[0.0635, 200e9],
	[0.125, 196.5e9],
	[Number.POSITIVE_INFINITY, 193e9],
] as const;

/**
 * Young's modulus of music wire (A228) by diameter, Pa. Other sources give
 * 190 to 203 GPa for the same wire: take 3 % for its uncertainty.
 *
 * @throws {RangeError} If the diameter is not positive and finite.
 * @see Shigley's Mechanical Engineering Design, 9th ed., table 10-5.
 */
export function musicWireYoungModulusPa(diameterM: number): number {
	requirePositive('musicWireYoungModulusPa', {diameterM});
	return youngModulusByInch.find(([inches]) => diameterM <= inches * 0.0254)![1];
}

/**
 * Core diameter assumed for a wound string whose core nobody measured, m.
 *
 *     core = 0.0135 in · (gauge / 0.024 in)^0.3,  at most 3/4 of the gauge
 *
 * An assumption, not a published rule: it passes through plausible cores of a
 * common light set (.024 on .0135, .032 on .0147, .042 on .016). Real sets
 * differ by about 10 %, and the stiffness by twice that.
 */
export function assumedCoreM(gaugeM: number): number {
	requirePositive('assumedCoreM', {gaugeM});
	return Math.min(0.0135 * 0.0254 * (gaugeM / (0.024 * 0.0254)) ** 0.3, 0.75 * gaugeM);
}

/**
 * A steel string by its gauge. Plain: a round music wire. Wound: a round core
 * close-wound with round wire of diameter w = (gauge − core) / 2, whose mass
 * per length of string is
 *
 *     ρ (π w² / 4) · √((π (core + w))² + w²) / w
 *
 * that is, π/4 of the space between core and gauge is filled. Hexagonal cores,
 * plating, wrap pressed into shape and tin are left out.
 *
 * @param gaugeM Outer diameter, m, positive.
 * @param coreM Core of a wound string, m, if known; below the gauge.
 * @throws {RangeError} If a diameter is not positive and finite, or the core is not below the gauge.
 */
export function wireFrom({
	gaugeM,
	wound,
	coreM,
}: {
	readonly gaugeM: number;
	readonly wound: boolean;
	readonly coreM?: number;
}): Wire {
	requirePositive('wireFrom', {gaugeM});
	const coreDiameterM = wound ? (coreM ?? assumedCoreM(gaugeM)) : gaugeM;
	requirePositive('wireFrom', {coreM: coreDiameterM});
	if (wound && coreDiameterM >= gaugeM) {
		throw new RangeError(`wireFrom: expected coreM to be below gaugeM ${gaugeM}, got ${coreDiameterM}`);
	}
	const coreMass = steelDensityKgPerM3 * (Math.PI / 4) * coreDiameterM ** 2;
	return {
		wound,
		outerDiameterM: gaugeM,
		coreDiameterM,
		youngModulusPa: musicWireYoungModulusPa(coreDiameterM),
		massPerLengthKgPerM: coreMass + (wound ? wrapMassPerLengthKgPerM(coreDiameterM, gaugeM) : 0),
		breakingLoadN: breakingLoadN(coreDiameterM),
	};
}

function wrapMassPerLengthKgPerM(coreM: number, gaugeM: number): number {
	const wrapM = (gaugeM - coreM) / 2;
	const turnLengthM = Math.hypot(Math.PI * (coreM + wrapM), wrapM);
	return (steelDensityKgPerM3 * (Math.PI / 4) * wrapM ** 2 * turnLengthM) / wrapM;
}

/** Area of the core, m². */
export function coreAreaM2({coreDiameterM}: Wire): number {
	return (Math.PI / 4) * coreDiameterM ** 2;
}

/**
 * Pull per unit of strain, E · A of the core, N. The wrap is taken to carry
 * neither pull nor bending: only the core does.
 */
export function axialStiffnessN(wire: Wire): number {
	return wire.youngModulusPa * coreAreaM2(wire);
}
