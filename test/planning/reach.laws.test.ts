import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {believe} from '../../source/estimation/believe.ts';
import {learn} from '../../source/estimation/learn.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {centsOf} from '../../source/planning/landing.ts';
import {lowestCents, withinReach} from '../../source/planning/reach.ts';
import {ceilingCents} from '../../source/planning/strength.ts';
import {planTuning} from '../../source/planning/tuning-plan.ts';
import {nines} from '../helpers/instrument.ts';

/** All at pitch, the tail measured, then the claw turned. */
function afterClaw(tailM: number, advanceM: number): Belief {
	const inTune = nines().strings.map((_, index) => ({kind: 'pitch', index, cents: 0}) as const);
	const {rival: _, ...prior} = priorBelief(nines(), {nut: 'open', newness: 0});
	// Soft springs: the plate answers far, and a string's place at the end may be slack now.
	const mean = Float64Array.from(prior.mean);
	mean[prior.layout.rate] = -0.6;
	const belief = believe({...prior, mean}, [...inTune, {kind: 'tail', tailM}]);
	return learn(belief, {kind: 'claw', advanceM});
}

/** Somebody who does what the plan says on a guitar that is what is believed; turns until it says done. */
function turnsUntilDone(start: Belief): {turns: number; lowest: number; belief: Belief} {
	let belief = start;
	let [turns, lowest] = [0, 0];
	let reads = belief.strings.map(() => 0);
	for (let step = 0; step < 200; step++) {
		const {step: next} = planTuning(belief, usualGoal, reads);
		if (next.kind === 'done') return {turns, lowest, belief};
		const {index} = next;
		let cents = centsOf(belief, belief.mean)[index]!;
		if (next.kind === 'turn') {
			cents = next.aim.mean;
			turns++;
			lowest = Math.min(lowest, cents);
			reads = reads.map(() => 0);
			belief = learn(belief, {kind: 'turned', index, aimCents: cents});
		}

		reads[index]!++;
		belief = learn(belief, {kind: 'pitch', index, cents});
	}

	throw new Error('expected the pass to end');
}

describe('a plate far off', () => {
	test('wherever the claw has been turned to, the pass ends with all at pitch and no string asked to hang loose', () => {
		fc.assert(
			fc.property(
				fc.double({min: -4e-3, max: 8e-3, noNaN: true}),
				fc.double({min: -4e-3, max: 8e-3, noNaN: true}),
				(tailM, advanceM) => {
					const {turns, lowest, belief} = turnsUntilDone(afterClaw(tailM, advanceM));
					expect(lowest).toBeGreaterThanOrEqual(-1200);
					expect(turns).toBeLessThan(40);
					for (const cents of centsOf(belief, belief.mean))
						expect(Math.abs(cents!)).toBeLessThan(usualGoal.toleranceCents);
				},
			),
			{numRuns: 12},
		);
	});

	test('as after the claw was turned by far with all at pitch: steps down, then the pass', () => {
		const {turns, lowest} = turnsUntilDone(afterClaw(7.5e-3, 7.9e-3));
		expect(lowest).toBeLessThanOrEqual(lowestCents);
		expect(lowest).toBeGreaterThanOrEqual(-1200);
		expect(turns).toBeGreaterThan(6);
		expect(turns).toBeLessThan(40);
	});

	test('an aim that is slack now is a step down, one beyond strength a step up, one between is itself', () => {
		const belief = afterClaw(0, 0);
		const now = {mean: 0, sd: 1};
		expect(withinReach(belief, 2, undefined, now)).toMatchObject({aim: {mean: lowestCents}, heldBy: 'slack'});
		expect(withinReach(belief, 2, {mean: -3799, sd: 9}, now)).toEqual({
			aim: {mean: lowestCents, sd: 9},
			heldBy: 'slack',
		});
		expect(withinReach(belief, 2, {mean: -50, sd: 1}, now)).toEqual({aim: {mean: -50, sd: 1}, heldBy: undefined});
		expect(withinReach(belief, 0, {mean: 900, sd: 1}, now)).toEqual({
			aim: {mean: ceilingCents(belief, 0), sd: 1},
			heldBy: 'strength',
		});
		// One that hangs lower already goes down, not up.
		expect(withinReach(belief, 2, undefined, {mean: -900, sd: 1}).aim.mean).toBeLessThan(-900);
	});
});
