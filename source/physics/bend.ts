import {requireFinite, requirePositive} from '../numeric/require.ts';

/**
 * Pitch of a string whose sounding part is turned sideways by an angle while
 * both ends stay where they are: what a finger does that presses a note and
 * draws it off its line.
 *
 *     L' = L / cos φ,  μ' = μ cos φ,  T' = T (1 + κ (1/cos φ − 1))
 *     f'/f = √(T'/T · μ/μ') · L/L'
 *
 * Own form, with κ the string constant of `string-constants.ts`. A floating
 * bridge that gives makes it less.
 *
 * @param angleRad φ, |φ| < π/2. 0.01 is a note drawn 3 mm sideways at the 12th fret of a 648 mm scale.
 * @returns Cents, ≥ 0 for the strings of a guitar (κ > 1).
 * @throws {RangeError} If the angle is a quarter turn or more.
 */
export function bendCents(angleRad: number, stringConstant: number): number {
	requireFinite('bendCents', {angleRad});
	requirePositive('bendCents', {stringConstant, 'room to a quarter turn': Math.PI / 2 - Math.abs(angleRad)});
	const lengthRatio = 1 / Math.cos(angleRad);
	const tensionRatio = 1 + stringConstant * (lengthRatio - 1);
	return 600 * Math.log2((tensionRatio * lengthRatio) / lengthRatio ** 2);
}
