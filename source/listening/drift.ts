import {centsPerLog} from '../music/pitch.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {phaseSums, productOf, withPhase} from './phase-sums.ts';
import type {Phases} from './phases.ts';

/** The attack's glide is nearly over by now, s after the onset; what moves later is a hand's doing. */
const lateS = 0.35;
/** Shorter than this no drift can be told from a beat, s. */
const shortestS = 0.25;
/** High partials of a moving pitch turn too fast to be followed. */
const highest = 8;

/**
 * How fast the pitch moves once the attack is over, cents per second: a peg
 * being turned, a finger that bends. Each partial says its own (a parabola
 * through its phases); the weighted median counts, so that strings ringing
 * beside some of them do not matter.
 *
 * @returns undefined if too little was heard.
 */
export function driftOf(partials: readonly (readonly Phases[])[]): Estimate | undefined {
	const said = partials.flatMap(stretches => {
		const late = stretches.map(lateOf).filter(p => p.frames >= 4);
		const heardS = late.reduce((sum, p) => sum + p.frames * (p.timesS[1]! - p.timesS[0]!), 0);
		if (late.length === 0 || late[0]!.n > highest || heardS < shortestS) return [];
		const sums = phaseSums(late, 1);
		const steady = productOf(sums, 'steady', 'steady');
		const mixed = productOf(sums, 'steady', 'drift');
		const bend = productOf(sums, 'drift', 'drift') - mixed ** 2 / steady;
		const drift = (withPhase(sums, 'drift') - (mixed * withPhase(sums, 'steady')) / steady) / bend / sums.turn;
		// Weight by the root of information: loud and high partials say more, but none decides alone.
		return [{centsPerS: drift * centsPerLog, weight: Math.sqrt(bend) * sums.turn}];
	});
	if (said.length === 0) return undefined;
	const mean = weightedMedian(said.map(s => [s.centsPerS, s.weight]));
	const spread = weightedMedian(said.map(s => [Math.abs(s.centsPerS - mean), s.weight]));
	// Median distance to standard deviation: 1.48 for a normal distribution. One partial alone may beat with anything.
	return {mean, sd: said.length < 3 ? 20 : (1.48 * spread) / Math.sqrt(said.length)};
}

/** The frames after the attack. */
function lateOf(phases: Phases): Phases {
	const weight = phases.weight.map((w, k) => (phases.timesS[k]! < lateS ? 0 : w));
	return {...phases, weight, frames: weight.reduce((count, w) => count + (w > 0 ? 1 : 0), 0)};
}

/** Median of values with weights; at least one. */
export function weightedMedian(weighted: readonly (readonly [value: number, weight: number])[]): number {
	const sorted = [...weighted].sort((a, b) => a[0] - b[0]);
	const half = sorted.reduce((sum, [, w]) => sum + w, 0) / 2;
	let sum = 0;
	for (const [value, w] of sorted) {
		sum += w;
		if (sum >= half) return value;
	}

	return sorted.at(-1)?.[0] ?? 0;
}
