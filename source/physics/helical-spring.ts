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

/**
 * Torsional stress that close-wound extension springs are by preference made
 * with while their coils still touch, 231 / e^(0.105 C) ± 6.9 (4 − (C − 3) / 6.5) MPa.
 *
 * @param springIndex C = D / d, 3 to 16.
 * @returns Pa, least and most.
 * @throws {RangeError} If C is not positive and finite.
 * @see Shigley's Mechanical Engineering Design, ch. 10, extension springs; from memory.
 */
export function preferredInitialStressPa(springIndex: number): readonly [least: number, most: number] {
	requirePositive('preferredInitialStressPa', {springIndex});
	const middle = 231e6 / Math.exp(0.105 * springIndex);
	const half = 6.9e6 * (4 - (springIndex - 3) / 6.5);
	return [middle - half, middle + half];
}

/** Pull of that stress in the wire, N: π d³ τ / (8 D). */
export function initialTensionN(
	{wireDiameterM, coilDiameterM}: Pick<HelicalSpring, 'wireDiameterM' | 'coilDiameterM'>,
	stressPa: number,
): number {
	requirePositive('initialTensionN', {wireDiameterM, coilDiameterM, stressPa});
	return (Math.PI * wireDiameterM ** 3 * stressPa) / (8 * coilDiameterM);
}
