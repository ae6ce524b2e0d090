import {minimumStrengthPa} from './wire-strength.ts';

/**
 * Pull that breaks a sound round wire at the least strength promised for its
 * diameter: strength times area.
 *
 * @param coreDiameterM Diameter of the load-bearing wire, m, positive.
 * @param strengthPa Tensile strength, Pa; the wire maker's minimum unless given.
 * @returns Breaking load, N.
 * @throws {RangeError} If the diameter is not positive and finite.
 */
export function breakingLoadN(coreDiameterM: number, strengthPa = minimumStrengthPa(coreDiameterM)): number {
	return strengthPa * (Math.PI / 4) * coreDiameterM ** 2;
}
