import {requirePositive} from '../numeric/require.ts';

/** Tension, length and mass of a string at the moment it sounds. */
export interface StretchedString {
	/** Pull, N, > 0. */
	readonly tensionN: number;
	/** Between the two places that hold it, m, > 0. */
	readonly speakingLengthM: number;
	/** As it sounds, that is, of the stretched string, kg/m, > 0. */
	readonly massPerLengthKgPerM: number;
}

/**
 * Fundamental of an ideal string: perfectly flexible, fixed at both ends
 * (Mersenne's law).
 *
 *     f = √(T / μ) / 2L
 *
 * Bending stiffness, the finger and the bridge are left out on purpose; each
 * has its own file in this folder.
 *
 * @returns Frequency, Hz.
 * @throws {RangeError} If a quantity is not positive and finite.
 * @see N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, 2nd ed., Springer, 1998, ch. 2.
 */
export function idealFrequencyHz({tensionN, speakingLengthM, massPerLengthKgPerM}: StretchedString): number {
	requirePositive('idealFrequencyHz', {tensionN, speakingLengthM, massPerLengthKgPerM});
	return Math.sqrt(tensionN / massPerLengthKgPerM) / (2 * speakingLengthM);
}

/**
 * Tension with which an ideal string sounds a frequency: T = 4 μ L² f².
 *
 * @returns Tension, N.
 * @throws {RangeError} If a quantity is not positive and finite.
 */
export function idealTensionN({
	frequencyHz,
	speakingLengthM,
	massPerLengthKgPerM,
}: Omit<StretchedString, 'tensionN'> & {readonly frequencyHz: number}): number {
	requirePositive('idealTensionN', {frequencyHz, speakingLengthM, massPerLengthKgPerM});
	return 4 * massPerLengthKgPerM * (speakingLengthM * frequencyHz) ** 2;
}

/** Mass per length of a round rod, ρ π r², kg/m: a plain string, from density (kg/m³) and radius (m). */
export function roundMassPerLengthKgPerM(densityKgPerM3: number, radiusM: number): number {
	requirePositive('roundMassPerLengthKgPerM', {densityKgPerM3, radiusM});
	return densityKgPerM3 * Math.PI * radiusM ** 2;
}
