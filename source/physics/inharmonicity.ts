import {requireNotNegative, requirePositive} from '../numeric/require.ts';

/**
 * Inharmonicity coefficient of a stiff round string with hinged ends,
 *
 *     B = π³ E d⁴ / (64 T L²)
 *
 * so that mode n sounds at n f₀ √(1 + B n²). d is the part that resists
 * bending: of a wound string its core.
 *
 * @returns B, pure number; 1e-5 to 1e-4 for electric guitar strings.
 * @throws {RangeError} If a quantity is not positive and finite.
 * @see H. Fletcher, J. Acoust. Soc. Am. 36, 203 (1964), cited from memory.
 */
export function inharmonicityCoefficient({
	youngModulusPa,
	coreDiameterM,
	tensionN,
	speakingLengthM,
}: {
	readonly youngModulusPa: number;
	readonly coreDiameterM: number;
	readonly tensionN: number;
	readonly speakingLengthM: number;
}): number {
	requirePositive('inharmonicityCoefficient', {youngModulusPa, coreDiameterM, tensionN, speakingLengthM});
	return (Math.PI ** 3 * youngModulusPa * coreDiameterM ** 4) / (64 * tensionN * speakingLengthM ** 2);
}

/** The same coefficient from B₀ of `string-constants.ts`: π² B₀². */
export function inharmonicityFromStiffness(openStiffness: number): number {
	requireNotNegative('inharmonicityFromStiffness', {openStiffness});
	return (Math.PI * openStiffness) ** 2;
}

/** The way back: B₀ from the coefficient B, √B / π. */
export function stiffnessFromInharmonicity(coefficient: number): number {
	requireNotNegative('stiffnessFromInharmonicity', {coefficient});
	return Math.sqrt(coefficient) / Math.PI;
}

/** How far mode n lies above n times the fundamental of the string without stiffness, cents: 600 log₂(1 + B n²). */
export function modeShiftCents(coefficient: number, mode: number): number {
	requireNotNegative('modeShiftCents', {coefficient});
	requirePositive('modeShiftCents', {mode});
	return 600 * Math.log2(1 + coefficient * mode ** 2);
}

/**
 * The plain-wire rule in terms of pitch, mass cancelled:
 *
 *     shift of mode n = C n² d² / (f₀² l⁴),   C = (600 / ln 2) (π² / 64) (E / ρ)
 *
 * @param specificStiffnessM2PerS2 E / ρ, m²/s².
 * @returns C in cents m²/s²: d and l in metres, f₀ in hertz.
 * @see R. W. Young, J. Acoust. Soc. Am. 24(3) (1952), who gives it for centimetres.
 */
export function plainWireShiftConstant(specificStiffnessM2PerS2: number): number {
	requirePositive('plainWireShiftConstant', {specificStiffnessM2PerS2});
	return ((600 / Math.LN2) * Math.PI ** 2 * specificStiffnessM2PerS2) / 64;
}

/** Coefficient of the same string stopped at a fret: B grows with the square of 2^(n/12), tension alike. */
export function coefficientAtFret(openCoefficient: number, fret: number): number {
	requireNotNegative('coefficientAtFret', {openCoefficient, fret});
	return openCoefficient * 2 ** (fret / 6);
}
