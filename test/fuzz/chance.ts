import type {Rng} from '../../source/numeric/rng.ts';

/** One of a list. */
export function pick<T>(rng: Rng, list: readonly T[]): T {
	return list[Math.floor(rng.uniform() * list.length)]!;
}

/** From `least` to `most`, both included. */
export function whole(rng: Rng, least: number, most: number): number {
	return least + Math.floor(rng.uniform() * (most - least + 1));
}

/** True in this share of cases. */
export function chance(rng: Rng, share: number): boolean {
	return rng.uniform() < share;
}
