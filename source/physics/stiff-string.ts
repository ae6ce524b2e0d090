import {requireNotNegative} from '../numeric/require.ts';

/**
 * How much bending stiffness raises mode q of a string that is clamped at one
 * end (nut or fret) and pinned at the other (saddle), as a frequency ratio:
 *
 *     1 + B + (1 + q² π² / 2) B²
 *
 * @param stiffness B, pure number ≥ 0; see `string-constants.ts`. Good to about
 * 0.1 cent for B below 0.01.
 * @param mode q, 1 for the fundamental, 2 for the harmonic at the 12th fret.
 * @throws {RangeError} If B is negative or not finite.
 * @see Anderson and Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024).
 */
export function stiffnessRatio(stiffness: number, mode = 1): number {
	requireNotNegative('stiffnessRatio', {stiffness});
	return 1 + stiffness + (1 + (mode ** 2 * Math.PI ** 2) / 2) * stiffness ** 2;
}
