import type {Belief} from '../estimation/belief.ts';
import {withStatus} from '../estimation/settling.ts';
import {learn} from '../estimation/learn.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {type ClawPlan, planClaw} from './claw-plan.ts';
import {consequencesOf} from './forecast.ts';

/** A string broke or was taken off: where the others go, and the two ways on. */
export interface LostString {
	/** By string: cents that the others move; undefined for the lost one, slack ones and those off. */
	readonly moves: readonly (Estimate | undefined)[];
	/** Change of the tail's height, metres; the springs win, so the tail goes down. */
	readonly tipM: Estimate;
	/** With a like string put on and brought to pitch, the others come back by themselves: only this much would be left to do. */
	readonly replaced: ClawPlan;
	/** Playing on without it: what brings the plate to the wish with the others at pitch. */
	readonly without: ClawPlan;
}

/**
 * @param index The string, from 0 = thinnest, on or off.
 * @param wishTailM Tail height wanted at pitch, metres.
 */
export function planWithout(belief: Belief, index: number, wishTailM: number): LostString {
	const {moves, tipM} = consequencesOf(belief, {kind: 'remove', index});
	const {on} = belief.strings[index]!;
	return {
		moves,
		tipM,
		// One that is off already stands for the like one, not yet wound up.
		replaced: planClaw(on === 'off' ? withStatus(belief, index, {on: 'slack'}) : belief, wishTailM),
		without: planClaw(learn(belief, {kind: 'off', index}), wishTailM),
	};
}
