import type {Phases} from './phases.ts';

/**
 * What one partial's phases may do: turn steadily (relative deviation of its
 * frequency), glide after the attack, drift. Each is scaled by the partial's
 * own radians per second, so that glide and drift are common to all partials.
 */
export const motions = ['steady', 'glide', 'drift'] as const;
const phase = motions.length;
const size = phase + 1;

/** Weighted sums of products over the frames of one partial, each stretch about its own mean, so that what a break did to the phase does not matter. */
export interface PhaseSums {
	readonly n: number;
	readonly referenceHz: number;
	readonly amplitude: number;
	/** Radians per second per unit of relative deviation: 2π f. */
	readonly turn: number;
	readonly products: Float64Array;
	readonly weight: number;
	readonly frames: number;
	readonly stretches: number;
}

/**
 * Sums of one partial over all its stretches.
 *
 * With relative frequency 1 + δ + g e^(-t/τ) + r t the phase beyond the
 * reference is 2π f (δ t - g τ e^(-t/τ) + r t²/2), constants aside.
 */
export function phaseSums(stretches: readonly Phases[], glideTimeS: number): PhaseSums {
	const products = new Float64Array(size * size);
	let [weight, frames, power] = [0, 0, 0];
	const row = new Float64Array(size);
	for (const stretch of stretches) {
		const rows = stretch.timesS.length;
		const fill = (k: number) => {
			const t = stretch.timesS[k]!;
			row[0] = t;
			row[1] = -glideTimeS * Math.exp(-t / glideTimeS);
			row[2] = (t * t) / 2;
			row[phase] = stretch.phaseRad[k]!;
		};
		const mean = new Float64Array(size);
		let total = 0;
		for (let k = 0; k < rows; k++) {
			const w = stretch.weight[k]!;
			if (w === 0) continue;
			fill(k);
			total += w;
			for (let a = 0; a < size; a++) mean[a]! += w * row[a]!;
		}

		for (let k = 0; k < rows; k++) {
			const w = stretch.weight[k]!;
			if (w === 0) continue;
			fill(k);
			for (let a = 0; a < size; a++) {
				for (let b = 0; b <= a; b++)
					products[a * size + b]! += w * (row[a]! - mean[a]! / total) * (row[b]! - mean[b]! / total);
			}
		}

		weight += total;
		frames += stretch.frames;
		power += stretch.amplitude ** 2 * stretch.frames;
	}

	for (let a = 0; a < size; a++) for (let b = 0; b < a; b++) products[b * size + a] = products[a * size + b]!;
	const {n, referenceHz} = stretches[0]!;
	return {
		n,
		referenceHz,
		amplitude: Math.sqrt(power / frames),
		turn: 2 * Math.PI * referenceHz,
		products,
		weight,
		frames,
		stretches: stretches.length,
	};
}

export type Motion = (typeof motions)[number];

/** Sum of products of two motions. */
export function productOf({products}: PhaseSums, a: Motion, b: Motion): number {
	return products[motions.indexOf(a) * size + motions.indexOf(b)]!;
}

/** Sum of products of a motion with the phase. */
export function withPhase({products}: PhaseSums, a: Motion): number {
	return products[motions.indexOf(a) * size + phase]!;
}

/** Weighted sum of squares left after the motions given (relative units). */
export function leftOver(sums: PhaseSums, amounts: Partial<Record<Motion, number>>): number {
	const scaled = motions.map(m => sums.turn * (amounts[m] ?? 0));
	let left = sums.products[size * size - 1]!;
	for (const [a, x] of scaled.entries()) {
		left -= 2 * x * sums.products[a * size + phase]!;
		for (const [b, y] of scaled.entries()) left += x * y * sums.products[a * size + b]!;
	}

	return Math.max(0, left);
}
