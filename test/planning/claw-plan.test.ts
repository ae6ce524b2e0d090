import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {type Belief, bridgeOf, levelRad, priorBelief} from '../../source/estimation/belief.ts';
import {holdCents, only} from '../../source/estimation/hold.ts';
import {nominal} from '../../source/estimation/priors.ts';
import {softening} from '../../source/physics/claw.ts';
import {armRanges} from '../../source/planning/arm-range.ts';
import {advanceBeforeRelease, planClaw} from '../../source/planning/claw-plan.ts';
import {planWithout} from '../../source/planning/lost-string.ts';
import {withOldStrings} from '../../source/planning/old-strings.ts';
import {forecastChange} from '../../source/planning/set-change.ts';
import {tensionsOf} from '../../source/planning/landing.ts';
import {nines} from '../helpers/instrument.ts';

// The tool's own model throughout: what it must keep to, not what a guitar does.

const model = nines();
/** A bridge of the tool's model without friction, with these unknowns set. */
function bridge(set: Partial<Record<'rate' | 'springArm' | 'setback' | 'home' | 'friction', number>> = {}): Belief {
	const {rival: _, ...prior} = priorBelief(model, {nut: 'locked', newness: 0});
	const mean = Float64Array.from(prior.mean);
	mean[prior.layout.friction] = 0;
	for (const [name, value] of Object.entries(set)) mean[prior.layout[name as 'rate']] = value;
	return {...prior, mean, strings: prior.strings.map(status => ({...status, everRead: true}))};
}

describe('one turn at pitch', () => {
	test('tips the plate by p over the spring arm whatever the springs, contacts above the edge', () => {
		fc.assert(
			fc.property(
				fc.double({min: -0.8, max: 0.8, noNaN: true}),
				fc.double({min: -0.2, max: 0.2, noNaN: true}),
				(rate, springArm) => {
					const {tailPerAdvance} = planClaw(bridge({rate, springArm, setback: 0}), 0);
					const law = model.tailArmM / (nominal.springArmM * Math.exp(springArm));
					// What a string's pull gains with its length at the same pitch is left out of the law: 2 T h² / L of K, below 4 %.
					expect(tailPerAdvance / law).toBeGreaterThan(0.96);
					expect(tailPerAdvance / law).toBeLessThanOrEqual(1);
				},
			),
			{numRuns: 30},
		);
	});

	test('contacts behind the edge make it more by 1 / (1 - softening)', () => {
		const at = (setback: number) => planClaw(bridge({setback}), 0).tailPerAdvance;
		const belief = bridge();
		const soft = softening(
			tensionsOf(belief, belief.mean).reduce((sum, each) => sum + each, 0),
			0.007,
			bridgeOf(belief, belief.mean).springRateNmPerRad,
		);
		expect(at(0.007) / at(0)).toBeCloseTo(1 / (1 - soft), 1);
	});
});

describe('the end state', () => {
	test('is the same in whatever order strings come to pitch', () => {
		fc.assert(
			fc.property(
				fc.shuffledSubarray([0, 1, 2, 3, 4, 5], {minLength: 6, maxLength: 6}),
				fc.array(fc.double({min: -150, max: 100, noNaN: true}), {minLength: 6, maxLength: 6}),
				(order, cents) => {
					const belief = bridge();
					const off = holdCents(belief, belief.mean, cents).x;
					// Rounds of single turns until nothing moves; each string to pitch in turn.
					let x: Float64Array = off;
					for (let round = 0; round < 60; round++) {
						for (const index of order) x = holdCents(belief, x, only(belief, index, 0)).x;
					}
					const direct = holdCents(
						belief,
						off,
						belief.strings.map(() => 0),
					);
					const round = holdCents(
						belief,
						x,
						belief.strings.map(() => undefined),
					);
					expect(round.angleRad).toBeCloseTo(direct.angleRad, 6);
				},
			),
			{numRuns: 12},
		);
	});

	test('the planned advance brings the wish', () => {
		fc.assert(
			fc.property(
				fc.double({min: -0.2, max: 0.2, noNaN: true}),
				fc.double({min: -0.003, max: 0.003, noNaN: true}),
				(home, wishM) => {
					const belief = bridge({home});
					const plan = planClaw(belief, wishM);
					// The plan's own answer to the claw carries it from where it would stand to the wish, to second order.
					const offM = plan.tailAtPitchM.mean - wishM;
					expect(Math.abs(plan.advanceM.mean * plan.tailPerAdvance - offM)).toBeLessThan(0.08 * Math.abs(offM) + 2e-5);
				},
			),
			{numRuns: 30},
		);
	});
});

describe('a change of set', () => {
	const calm = (belief: Belief) => withOldStrings(belief, model, 0);

	test('a set swapped for itself needs no turn and stays where it was', () => {
		const {claw, letGoCents, letGoTailM, totalN} = forecastChange(calm(bridge()), 0);
		expect(claw.advanceM.mean).toBeCloseTo(0, 6);
		expect(letGoTailM.mean).toBeCloseTo(0, 6);
		for (const cents of letGoCents) expect(Math.abs(cents!.mean)).toBeLessThan(0.01);
		// 9-42 at 648 mm, own derivation: 379.7 N by mass per length at pitch; within a newton and a half by unstretched mass.
		expect(totalN.mean).toBeGreaterThan(374);
		expect(totalN.mean).toBeLessThan(382);
	});

	test('a set swapped for itself on a plate that stood high asks for the turns that plate asked for', () => {
		const stood = withOldStrings(bridge(), model, 0.001);
		const {claw} = forecastChange(stood, 0);
		expect(claw.tailAtPitchM.mean).toBeCloseTo(0.001, 5);
		expect(claw.advanceM.mean).toBeGreaterThan(0);
	});

	test('thinner old strings leave too little spring: the tail comes up, strings go flat when let go, claw tighter', () => {
		const lighter = {
			...model,
			strings: model.strings.map(each => ({...each, targetHz: each.targetHz / 2 ** (1 / 12)})),
		};
		const {claw, letGoCents, letGoTailM} = forecastChange(withOldStrings(bridge(), lighter, 0), 0);
		expect(letGoTailM.mean).toBeGreaterThan(0.0003);
		expect(claw.tailAtPitchM.mean).toBeGreaterThan(letGoTailM.mean);
		for (const cents of letGoCents) expect(cents!.mean).toBeLessThan(0);
		expect(claw.advanceM.mean).toBeGreaterThan(0);
	});
});

describe('a support taken out', () => {
	test('with all at pitch, what keeps the plate is what the plan at pitch asks for', () => {
		const belief = bridge({home: 0.08});
		const level = levelRad(belief, belief.mean);
		const held = Float64Array.from(belief.mean);
		held[belief.layout.support] = level;
		const supported: Belief = {...belief, blocked: true};
		const mean = holdCents(
			supported,
			held,
			belief.strings.map(() => 0),
		).x;
		const ready: Belief = {...supported, mean};
		expect(advanceBeforeRelease(ready, 0).mean).toBeCloseTo(planClaw(ready, 0).advanceM.mean, 7);
	});

	test('strings flat of pitch pull less: less spring is wanted to let it out level', () => {
		const belief: Belief = {...bridge({home: 0}), blocked: true};
		const flat = holdCents(
			belief,
			belief.mean,
			belief.strings.map(() => -100),
		).x;
		expect(advanceBeforeRelease({...belief, mean: flat}, 0).mean).toBeLessThan(0);
	});
});

describe('the arm', () => {
	test('a tail wished higher has more way up, and less down is not its price before slackness', () => {
		const belief = bridge();
		const [level, high] = [armRanges(belief, 0), armRanges(belief, 0.002)];
		for (const [index, range] of level.entries()) {
			expect(range!.pullUpCents).toBeGreaterThan(0);
			expect(high[index]!.pullUpCents).toBeGreaterThan(range!.pullUpCents);
		}
	});

	test('among plain strings the third goes furthest (external: stiffness over tension rises with falling pitch)', () => {
		const [first, second, third] = armRanges(bridge(), 0).map(range => range!.pullUpCents);
		expect(third).toBeGreaterThan(second!);
		expect(second).toBeGreaterThan(first!);
	});
});

describe('a string lost', () => {
	test('the others go sharp, the tail goes down, and a like one brings all back', () => {
		const belief = bridge();
		const lost = planWithout(belief, 5, 0);
		expect(lost.moves[5]).toBeUndefined();
		for (const move of lost.moves.slice(0, 5)) expect(move!.mean).toBeGreaterThan(10);
		expect(lost.tipM.mean).toBeLessThan(0);
		expect(lost.replaced.advanceM.mean).toBeCloseTo(planClaw(belief, 0).advanceM.mean, 9);
		// Less pull wants less spring.
		expect(lost.without.advanceM.mean).toBeLessThan(lost.replaced.advanceM.mean);
	});
});
