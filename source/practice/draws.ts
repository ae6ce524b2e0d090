import type {Rng} from '../numeric/rng.ts';

/** Evenly between two numbers. */
export function between(rng: Rng, low: number, high: number): number {
	return low + (high - low) * rng.uniform();
}

/** Normal, drawn again while farther than `cut` standard deviations out. */
export function around(rng: Rng, mean: number, sd: number, cut = 2.5): number {
	for (;;) {
		const normal = rng.normal();
		if (Math.abs(normal) <= cut) return mean + sd * normal;
	}
}

/** Log-normal by its median and the ratio that one standard deviation multiplies or divides by. */
export function roughly(rng: Rng, median: number, ratio: number): number {
	return median * ratio ** around(rng, 0, 1);
}
