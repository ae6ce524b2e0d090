import {requireFinite, requireNotNegative, requirePositive} from '../numeric/require.ts';

/** A cylindrical spring of round wire. */
export interface HelicalSpring {
	/** d, wire, m, > 0. */
	readonly wireDiameterM: number;
	/** D, mean of the coil, m, > 0. */
	readonly coilDiameterM: number;
	/** N, turns that work, > 0. */
	readonly activeTurns: number;
	/** G, Pa, > 0. */
	readonly shearModulusPa: number;
}

/**
 * Rate of a helical spring, k = G d⁴ / (8 D³ N). The bending of the wire and
 * the pitch of the coil are left out (under 2 % for a usual spring).
 *
 * @returns Rate, N/m.
 * @throws {RangeError} If a quantity is not positive and finite.
 * @see Shigley's Mechanical Engineering Design, ch. 10.
 */
export function springRateNPerM({wireDiameterM, coilDiameterM, activeTurns, shearModulusPa}: HelicalSpring): number {
	requirePositive('springRateNPerM', {wireDiameterM, coilDiameterM, activeTurns, shearModulusPa});
	return (shearModulusPa * wireDiameterM ** 4) / (8 * coilDiameterM ** 3 * activeTurns);
}

/** Turns that give a spring its rate: the same formula read backwards. */
export function activeTurnsForRate({
	wireDiameterM,
	coilDiameterM,
	shearModulusPa,
	rateNPerM,
}: Omit<HelicalSpring, 'activeTurns'> & {readonly rateNPerM: number}): number {
	requirePositive('activeTurnsForRate', {wireDiameterM, coilDiameterM, shearModulusPa, rateNPerM});
	return (shearModulusPa * wireDiameterM ** 4) / (8 * coilDiameterM ** 3 * rateNPerM);
}

/** Working turns of an extension spring with end loops: body turns plus G/E, for the loops give too. */
export function turnsWithLoops(bodyTurns: number, shearModulusPa: number, youngModulusPa: number): number {
	requirePositive('turnsWithLoops', {bodyTurns, shearModulusPa, youngModulusPa});
	return bodyTurns + shearModulusPa / youngModulusPa;
}

/**
 * Stretch of an extension spring under a pull. Its coils are wound pressed
 * together: nothing opens until the initial tension is overcome,
 *
 *     x = (F − Fᵢ) / k  for F > Fᵢ, else 0.
 *
 * @returns Stretch, m, ≥ 0.
 */
export function extensionM({
	pullN,
	initialTensionN,
	rateNPerM,
}: {
	readonly pullN: number;
	readonly initialTensionN: number;
	readonly rateNPerM: number;
}): number {
	requireFinite('extensionM', {pullN});
	requireNotNegative('extensionM', {initialTensionN});
	requirePositive('extensionM', {rateNPerM});
	return Math.max(0, pullN - initialTensionN) / rateNPerM;
}
