import {requirePositive} from '../numeric/require.ts';
import {axialStiffnessN, type Wire} from './wire.ts';

/**
 * Tension and strain of a string that sounds a frequency, the stretch of its
 * own mass accounted for:
 *
 *     ε (1 + ε) = 4 μ₀ L² f² / E A,   T = E A ε
 *
 * with μ₀ the mass per length of the unstretched string. For a plain string
 * the gauge cancels: its strain depends on pitch, length and material alone.
 * Bending stiffness is left out.
 *
 * @returns Tension in N, strain (stretch over unstretched length) as a ratio.
 * @throws {RangeError} If a quantity is not positive and finite.
 */
export function tensionAtPitch(
	wire: Wire,
	{frequencyHz, speakingLengthM}: {readonly frequencyHz: number; readonly speakingLengthM: number},
): {readonly tensionN: number; readonly strain: number} {
	requirePositive('tensionAtPitch', {frequencyHz, speakingLengthM});
	const stiffnessN = axialStiffnessN(wire);
	const load = (4 * wire.massPerLengthKgPerM * (speakingLengthM * frequencyHz) ** 2) / stiffnessN;
	const strain = (Math.sqrt(1 + 4 * load) - 1) / 2;
	return {tensionN: stiffnessN * strain, strain};
}
