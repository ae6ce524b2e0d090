import {requireNotNegative, requirePositive} from '../numeric/require.ts';
import {tensionAtPitch} from './tension-at-pitch.ts';
import {axialStiffnessN, type Wire} from './wire.ts';

/*
 * The pure numbers that say how a string answers when it is pressed or moved:
 *
 *   R    relative pitch change per relative length change, (L/f) df/dL
 *   κ    relative tension change per relative length change, (L/T) dT/dL
 *   B₀   bending stiffness of the open string
 *
 * Source of the relations: M. B. Anderson and R. G. Beausoleil, "Classical
 * guitar intonation and compensation", J. Acoust. Soc. Am. 156(1), 683 (2024).
 */

/** κ = 2R + 1, from the pitch sensitivity R (a ratio, ≥ 0). */
export function stringConstantFromSensitivity(sensitivity: number): number {
	requireNotNegative('stringConstantFromSensitivity', {sensitivity});
	return 2 * sensitivity + 1;
}

/**
 * R, from how far a string end must be drawn for an interval: R = (L/f) df/dL
 * as the finite ratio of logarithms.
 *
 * @param lengthM Length before, m, > 0.
 * @param drawnM Extra length drawn, m, > 0.
 * @param cents Rise in pitch, cents.
 */
export function sensitivityFromDraw(lengthM: number, drawnM: number, cents: number): number {
	requirePositive('sensitivityFromDraw', {lengthM, drawnM, cents});
	return (Math.LN2 * cents) / 1200 / Math.log1p(drawnM / lengthM);
}

/** Young's modulus a uniform string of this radius would need for its κ, E = κ T / π r², Pa. */
export function effectiveYoungModulusPa(stringConstant: number, tensionN: number, radiusM: number): number {
	requirePositive('effectiveYoungModulusPa', {stringConstant, tensionN, radiusM});
	return (stringConstant * tensionN) / (Math.PI * radiusM ** 2);
}

/**
 * Bending stiffness of an open string as a pure number,
 *
 *     B₀ = √κ r / 2 X₀
 *
 * with r the radius of the part that resists bending (of a wound steel string
 * its core). π² B₀² is the inharmonicity coefficient of `inharmonicity.ts`.
 */
export function openStiffness({
	stringConstant,
	radiusM,
	scaleLengthM,
}: {
	readonly stringConstant: number;
	readonly radiusM: number;
	readonly scaleLengthM: number;
}): number {
	requirePositive('openStiffness', {stringConstant, radiusM, scaleLengthM});
	return (Math.sqrt(stringConstant) * radiusM) / (2 * scaleLengthM);
}

/** What `fretted-note.ts` needs to know of a string. */
export interface StringConstants {
	/** κ, relative tension change per relative length change, > 0. */
	readonly stringConstant: number;
	/** B₀, pure number ≥ 0. */
	readonly openStiffness: number;
}

/**
 * The constants of a steel string at pitch.
 *
 *     κ = (E A / T + 1) · L / (L + extra)
 *
 * The 1 is the stretch of the length that is being stretched further; `extra`
 * is string that shares the stretch (behind an open nut, if it slides there).
 *
 * @param extraLengthM m, ≥ 0; 0 with the nut locked.
 */
export function stringConstantsOf(
	wire: Wire,
	{
		frequencyHz,
		scaleLengthM,
		extraLengthM = 0,
	}: {readonly frequencyHz: number; readonly scaleLengthM: number; readonly extraLengthM?: number},
): StringConstants {
	requireNotNegative('stringConstantsOf', {extraLengthM});
	const {tensionN} = tensionAtPitch(wire, {frequencyHz, speakingLengthM: scaleLengthM});
	const alone = axialStiffnessN(wire) / tensionN + 1;
	return {
		stringConstant: (alone * scaleLengthM) / (scaleLengthM + extraLengthM),
		// Bending does not care what lies behind the nut.
		openStiffness: openStiffness({stringConstant: alone - 1, radiusM: wire.coreDiameterM / 2, scaleLengthM}),
	};
}
