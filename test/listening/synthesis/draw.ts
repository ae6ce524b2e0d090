import type {Rng} from '../../../source/numeric/rng.ts';

/** Uniform in [low, high). */
export function between(rng: Rng, low: number, high: number): number {
	return low + (high - low) * rng.uniform();
}

/** Log-uniform in [low, high). */
export function betweenLog(rng: Rng, low: number, high: number): number {
	return low * (high / low) ** rng.uniform();
}

export function oneOf<T>(rng: Rng, items: readonly T[]): T {
	return items[Math.floor(rng.uniform() * items.length)]!;
}

export function shuffled<T>(rng: Rng, items: readonly T[]): readonly T[] {
	return items
		.map(item => ({item, at: rng.uniform()}))
		.sort((a, b) => a.at - b.at)
		.map(({item}) => item);
}
