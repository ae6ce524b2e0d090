/**
 * The bridge as a lever on its knife edge. The angle is positive when the
 * string side moves away from the neck (arm pulled up, tail low): strings get longer.
 *
 *     travel(θ) = h sin θ − x (1 − cos θ)
 *
 * with h the height of the string contact above the edge and x its distance
 * behind the edge. Own derivation from the plane rotation of a point, for a
 * nut so far away that the string's direction does not change.
 */
export interface Lever {
	/** Height of the string contact above the knife edge, metres, > 0. */
	readonly armM: number;
	/** Distance of the contact behind the knife edge, metres. */
	readonly setbackM: number;
}

/** Travel of the contact along the string, metres. */
export function travelAt({armM, setbackM}: Lever, angleRad: number): number {
	return armM * Math.sin(angleRad) - setbackM * (1 - Math.cos(angleRad));
}
