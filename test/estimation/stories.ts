import type {Belief} from '../../source/estimation/belief.ts';
import type {Happening} from '../../source/estimation/happening.ts';
import {holdCents, only} from '../../source/estimation/hold.ts';
import {propagated} from '../../source/estimation/gaussian.ts';
import {centsOf} from '../../source/planning/landing.ts';

/** Every string read once, as it came in. */
export function firstReads(cents: readonly number[]): readonly Happening[] {
	return cents.map((each, index) => ({kind: 'pitch', index, cents: each}));
}

/** One string turned and read. */
export function turnTo(index: number, cents: number): readonly Happening[] {
	return [
		{kind: 'turned', index},
		{kind: 'pitch', index, cents},
	];
}

/** Where every string is believed to stand, cents. */
export function places(belief: Belief) {
	return propagated(belief, x => centsOf(belief, x)).estimates;
}

/** Cents by which the others are expected to move when one is turned to a place. */
export function answers(belief: Belief, index: number, cents: number): readonly number[] {
	const before = centsOf(belief, belief.mean);
	const after = centsOf(belief, holdCents(belief, belief.mean, only(belief, index, cents)).x);
	return after.map((each, at) => (each ?? 0) - (before[at] ?? 0));
}
