import type {Rng} from '../../source/numeric/rng.ts';
import {type Guitar, measureTail, turnClaw} from '../../source/practice/index.ts';
import type {Wish} from './balance-run.ts';
import {goRound} from './other-ways.ts';

/** How people step the claw, turns for a shown height off the wish, metres. */
export const usualSteps = {
	/** A quarter turn and look again. */
	quarter: () => 0.25,
	/** Whole turns while it is far off, then half, then a quarter: somebody who has done it often. */
	'far first': (offM: number) => (Math.abs(offM) > 2e-3 ? 1 : Math.abs(offM) > 1e-3 ? 0.5 : 0.25),
} as const satisfies Readonly<Record<string, (offM: number) => number>>;

export interface UsualRun {
	readonly guitar: Guitar;
	readonly pegTurns: number;
	readonly clawTouches: number;
	readonly finished: boolean;
}

/** The usual way: tune round, look, turn the claw a little, tune round, until it stands as wished. */
export function balanceUsually(rng: Rng, start: Guitar, wish: Wish, step: (offM: number) => number): UsualRun {
	let guitar = start;
	let pegTurns = 0;
	for (let clawTouches = 0; clawTouches < 40; clawTouches++) {
		const round = goRound(rng, guitar, wish.goal);
		guitar = round.guitar;
		pegTurns += round.adjustments;
		const offM = measureTail(rng, guitar) - wish.wishTailM;
		if (Math.abs(offM) <= wish.toleranceM) return {guitar, pegTurns, clawTouches, finished: round.finished};
		// A tail too high wants more spring.
		const turns = Math.sign(offM) * step(offM);
		guitar = turnClaw(rng, guitar, {trebleTurns: turns, bassTurns: turns}).guitar;
	}

	return {guitar, pegTurns, clawTouches: 40, finished: false};
}
