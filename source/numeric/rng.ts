import {uniformFloat64} from 'pure-rand/distribution/uniformFloat64';
import {xoroshiro128plusFromState} from 'pure-rand/generator/xoroshiro128plus';

/**
 * A stream of random numbers. Each call takes the next one, so whoever is
 * handed an `Rng` changes it; two streams from the same seeds are alike.
 */
export interface Rng {
	/** From 0 (included) to 1 (excluded), 53 random bits. */
	uniform(): number;
	/** Standard normal: mean 0, standard deviation 1. */
	normal(): number;
}

/**
 * The stream that belongs to these seeds. Order counts: `rngFrom(1, 2)` and
 * `rngFrom(2, 1)` are unrelated, so a benchmark can name a stream by
 * (experiment, guitar, purpose) without streams overlapping.
 *
 * @param seeds At least one; whole numbers, −2^53 to 2^53.
 * @throws {RangeError} If there is no seed or one is not a whole number.
 */
export function rngFrom(...seeds: readonly number[]): Rng {
	if (seeds.length === 0 || !seeds.every(Number.isSafeInteger)) {
		throw new RangeError(`rngFrom: expected seeds to be one or more whole numbers, got ${seeds.join(', ') || 'none'}`);
	}

	const generator = xoroshiro128plusFromState(stateOf(seeds));
	const uniform = (): number => uniformFloat64(generator);
	return {
		uniform,
		// Box-Muller, one of the pair: 1 − u is never 0, so the logarithm is finite.
		normal: () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform()),
	};
}

/**
 * Four 32-bit words of generator state. Neighbouring seeds must give unlike
 * states, which the generator's own seeding (three words fixed) does not give,
 * so every bit is mixed into every word: multiply-xorshift rounds with the
 * constants of the 32-bit MurmurHash3 finaliser (A. Appleby, public domain).
 */
function stateOf(seeds: readonly number[]): readonly number[] {
	let state = seeds.length;
	for (const seed of seeds) {
		state = mixed(state ^ seed);
		state = mixed(state + Math.floor(seed / 2 ** 32) + 0x9e3779b9);
	}

	// Distinct odd steps per word: the four are never all zero, the one state the generator cannot leave.
	return [1, 2, 3, 4].map(word => mixed(state + Math.imul(word, 0x9e3779b9)));
}

function mixed(word: number): number {
	let mix = word | 0;
	mix = Math.imul(mix ^ (mix >>> 16), 0x85ebca6b);
	mix = Math.imul(mix ^ (mix >>> 13), 0xc2b2ae35);
	return mix ^ (mix >>> 16);
}
