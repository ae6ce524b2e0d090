import {uniformFloat64} from 'pure-rand/distribution/uniformFloat64';
import {xoroshiro128plus} from 'pure-rand/generator/xoroshiro128plus';
import type {RandomGenerator} from 'pure-rand/types/RandomGenerator';

export type Rng = RandomGenerator;

export function seeded(seed: number): Rng {
	return xoroshiro128plus(seed);
}

/** Uniform in [low, high). */
export function between(rng: Rng, low: number, high: number): number {
	return low + (high - low) * uniformFloat64(rng);
}

/** Log-uniform in [low, high). */
export function betweenLog(rng: Rng, low: number, high: number): number {
	return low * (high / low) ** uniformFloat64(rng);
}

/** Standard normal, by Box and Muller. */
export function normal(rng: Rng): number {
	return Math.sqrt(-2 * Math.log(1 - uniformFloat64(rng))) * Math.cos(2 * Math.PI * uniformFloat64(rng));
}

export function oneOf<T>(rng: Rng, items: readonly T[]): T {
	return items[Math.floor(uniformFloat64(rng) * items.length)]!;
}
