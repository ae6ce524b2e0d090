import {requirePositive} from '../numeric/require.ts';

const PA_PER_KSI = 6.894757e6;
const M_PER_INCH = 0.0254;

/**
 * Minimum tensile strength of music wire (ASTM A228), a wire maker's table:
 * diameter in inches, strength in thousands of pounds per square inch.
 */
const minimumTable = [
	[0.008, 399],
	[0.009, 393],
	[0.01, 387],
	[0.011, 382],
	[0.012, 377],
	[0.013, 373],
	[0.014, 369],
	[0.015, 365],
	[0.016, 362],
	[0.018, 356],
	[0.02, 350],
	[0.022, 345],
	[0.024, 341],
] as const;

/**
 * Mean tensile strength of music wire by the textbook's power law,
 *
 *     S = A / d^m,   A = 2211 MPa mm^m,  m = 0.145
 *
 * fitted there for 0.10 to 6.5 mm. It runs 1.1 to 1.5 % above the minimum
 * that wire makers promise; `minimumStrengthPa` is the one to be careful with.
 *
 * @param diameterM Wire diameter, m, positive.
 * @returns Tensile strength, Pa.
 * @throws {RangeError} If the diameter is not positive and finite.
 * @see Shigley's Mechanical Engineering Design, 9th ed., table 10-4.
 */
export function formulaStrengthPa(diameterM: number): number {
	requirePositive('formulaStrengthPa', {diameterM});
	return 2211e6 / (diameterM * 1000) ** 0.145;
}

/**
 * Least tensile strength a sound music wire of this diameter has: the wire
 * maker's table from 0.008 to 0.024 in, straight lines between its rows;
 * beyond its ends the power law, scaled to join the table.
 *
 * A wire that is old, kinked or nicked breaks below this.
 *
 * @param diameterM Wire diameter (of a wound string: of its core), m, positive.
 * @returns Minimum tensile strength, Pa.
 * @throws {RangeError} If the diameter is not positive and finite.
 */
export function minimumStrengthPa(diameterM: number): number {
	requirePositive('minimumStrengthPa', {diameterM});
	const inches = diameterM / M_PER_INCH;
	const above = minimumTable.findIndex(([d]) => d >= inches);
	if (above <= 0) {
		const [edgeInches, edgeKsi] = above === 0 ? minimumTable[0] : minimumTable[minimumTable.length - 1]!;
		const scale = (edgeKsi * PA_PER_KSI) / formulaStrengthPa(edgeInches * M_PER_INCH);
		return scale * formulaStrengthPa(diameterM);
	}
	const [d0, s0] = minimumTable[above - 1]!;
	const [d1, s1] = minimumTable[above]!;
	return (s0 + ((s1 - s0) * (inches - d0)) / (d1 - d0)) * PA_PER_KSI;
}
