import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {saddleBeliefOf} from '../../source/estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {compromiseFor} from '../../source/planning/saddle-compromise.ts';
import {checkFor, planSaddle} from '../../source/planning/saddle-plan.ts';
import {reachOf, saddleTravelOf} from '../../source/planning/saddle-travel.ts';
import {saddleWayCosts} from '../../source/planning/saddle-ways.ts';
import {fretted, harmonic, measured, moved, plainThird, sharpByEight} from '../estimation/saddle-strings.ts';

const model = plainThird();
const goal = {wishCents: 0, toleranceCents: 2};
const planAfter = (history: readonly SaddleHappening[], change: Partial<typeof goal> = {}, travel = saddleTravelOf()) =>
	planSaddle(saddleBeliefOf(model, {}, history, usualSaddleNoise), {...goal, ...change}, travel);
const pairs = (cents: number, times: number) =>
	Array.from({length: times}, (_, index) => [harmonic(0), fretted(cents + (index % 2 ? 0.2 : -0.2))]).flat();

describe('the step', () => {
	test('nothing read: read both ways', () => {
		expect(planAfter([]).step).toMatchObject({kind: 'read', why: 'never-read'});
	});

	test('clearly sharp: move back by about .37 mm per cent, and say what to expect', () => {
		const plan = planAfter(sharpByEight);
		expect(plan.step.kind).toBe('move');
		expect(plan.travelMm.mean / plan.errorCents.mean).toBeCloseTo(0.37, 1);
		expect(plan.travelMm.mean).toBeGreaterThan(0);
		expect(plan.expectedCents.mean).toBeCloseTo(0, 6);
		expect(plan.expectedCents.sd).toBeLessThan(0.8);
		expect(plan.chanceWithin.now).toBeLessThan(0.001);
		expect(plan.chanceWithin.after).toBeGreaterThan(0.99);
	});

	test('clearly flat: move forward', () => {
		const plan = planAfter(pairs(-6, 3));
		expect(plan.step).toMatchObject({kind: 'move'});
		expect(plan.travelMm.mean).toBeLessThan(-2);
	});

	test('near the edge of the tolerance: more plucks before deciding; well inside: leave it', () => {
		expect(planAfter(pairs(1.6, 1)).step).toMatchObject({kind: 'read', why: 'too-close-to-call'});
		expect(planAfter(pairs(0.4, 3)).step).toEqual({kind: 'leave', why: 'within-tolerance'});
	});

	test('a tolerance finer than tuner and hand: it says that it cannot be told', () => {
		const plan = planAfter(pairs(0.5, 8), {toleranceCents: 0.3});
		expect(plan.step).toEqual({kind: 'leave', why: 'below-what-can-be-told'});
		expect(plan.resolvableCents).toBeGreaterThan(0.3);
	});

	test('a wish other than zero is what counts', () => {
		expect(planAfter(pairs(-5, 3), {wishCents: -5}).step).toEqual({kind: 'leave', why: 'within-tolerance'});
		expect(planAfter(pairs(0, 3), {wishCents: -5}).step).toMatchObject({kind: 'move'});
	});
});

describe('after a move', () => {
	const crept = [...sharpByEight, moved(2.85), ...pairs(3.3, 2)];
	const bent = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(3.3), fretted(7.5), fretted(5)];

	test('a result that contradicts it asks for the check that tells the stories apart', () => {
		// As long as a bend could explain it too, the cheap check comes first.
		expect(planAfter(crept).step).toMatchObject({kind: 'check', cause: 'crept', check: 'press-lightly'});
		const often = [...sharpByEight, moved(2.85), ...pairs(3.7, 4)];
		expect(planAfter(often).suspicion).toMatchObject({cause: 'crept', check: 'measure-saddle'});
		expect(planAfter(bent).step).toMatchObject({kind: 'check', cause: 'bent', check: 'press-lightly'});
		const slip = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(-9)];
		expect(planAfter(slip).step).toMatchObject({kind: 'check', cause: 'slipped', check: 'harmonic-again'});
	});

	test('the check made, it goes on and still names what happened', () => {
		const plan = planAfter([measured(0.5), ...crept, measured(2.3)]);
		expect(plan.step).toMatchObject({kind: 'move'});
		expect(plan.suspicion).toMatchObject({cause: 'crept'});
		const light = planAfter([...bent, fretted(0.4), fretted(0.5), fretted(0.1)]);
		expect(light.step.kind).toBe('leave');
		expect(light.suspicion).toMatchObject({cause: 'bent'});
	});

	test('a bend is asked after first: a lighter press costs nothing', () => {
		expect(checkFor('crept', 'bent')).toBe('press-lightly');
		expect(checkFor('crept', undefined)).toBe('measure-saddle');
		expect(checkFor('slipped', 'bent')).toBe('harmonic-again');
	});
});

describe('travel', () => {
	const travel = saddleTravelOf([-3, 8]);

	test('two holes cover the range with an overlap', () => {
		expect(travel.holesMm.front[0]).toBe(-3);
		expect(travel.holesMm.back[1]).toBe(8);
		expect(travel.holesMm.front[1]).toBeGreaterThan(travel.holesMm.back[0]);
		expect(() => saddleTravelOf([4, 4])).toThrow(RangeError);
	});

	test('in reach with the same hole, with the other hole, not at all', () => {
		const at = (mean: number) => ({mean, sd: 0.2});
		expect(reachOf({...travel, hole: 'front'}, at(1), 2)).toMatchObject({
			kind: 'reachable',
			hole: 'front',
			changesHole: false,
		});
		expect(reachOf({...travel, hole: 'front'}, at(3), 3)).toMatchObject({
			kind: 'reachable',
			hole: 'back',
			changesHole: true,
		});
		expect(reachOf(travel, at(7), 3)).toMatchObject({kind: 'out', end: 'back', travelMm: 1});
		expect(reachOf(travel, at(-2), -3)).toMatchObject({kind: 'out', end: 'front', travelMm: -1});
	});

	test('where the saddle stands is asked for only when it matters', () => {
		expect(reachOf(travel, {mean: 3, sd: 1.2}, 1).kind).toBe('reachable');
		expect(reachOf(travel, {mean: 6, sd: 1.2}, 2)).toMatchObject({kind: 'measure-first'});
		const plan = planAfter(sharpByEight, {}, saddleTravelOf([-3, 4.3]));
		expect(plan.step).toEqual({kind: 'measure-place'});
	});

	test('out of travel: the end is the best compromise, and what it leaves is said', () => {
		const plan = planAfter([measured(1), ...sharpByEight], {}, saddleTravelOf([-3, 2]));
		expect(plan.step.kind).toBe('out-of-travel');
		expect(plan.reach).toMatchObject({kind: 'out', end: 'back'});
		expect(plan.expectedCents.mean).toBeGreaterThan(4);
		expect(plan.expectedCents.mean).toBeLessThan(6);
	});

	test('reach does not depend on the order of asking: a reachable place is within the range', () => {
		fc.assert(
			fc.property(
				fc.double({min: -3, max: 8, noNaN: true}),
				fc.double({min: -12, max: 12, noNaN: true}),
				(mean, by) => {
					const reach = reachOf(travel, {mean, sd: 0.01}, by);
					const target = mean + by;
					if (reach.kind === 'reachable') {
						expect(target).toBeGreaterThan(-3.1);
						expect(target).toBeLessThan(8.1);
					}
					if (reach.kind === 'out') {
						expect(Math.abs(reach.travelMm)).toBeLessThanOrEqual(Math.abs(by) + 0.1);
						expect(mean + reach.travelMm).toBeCloseTo(reach.end === 'front' ? -3 : 8, 9);
					}
				},
			),
		);
	});
});

test('what else would help where the travel ends: lower action for a sharp string, a gauge that leaves less', () => {
	const compromise = compromiseFor(model, 1.2, 8);
	expect(compromise.actionMm).toBeLessThan(0);
	expect(compromise.gauges.length).toBeGreaterThan(0);
	for (const gauge of compromise.gauges) {
		// A plain string that is too short fret for fret wants to be thinner.
		expect(gauge.gaugeM).toBeLessThan(model.wire.outerDiameterM);
		expect(Math.abs(gauge.leftCents)).toBeLessThan(1.2);
	}
	expect(compromiseFor(model, 9, 8).actionMm).toBeUndefined();
});

test('on a support all at once costs fewest adjustments; floating it costs more than string by string, but one slack period', () => {
	const costs = Object.fromEntries(
		saddleWayCosts({strings: 6, toMove: 6, secondMoveChance: 0.1}).map(cost => [cost.way, cost]),
	);
	expect(costs.blocked!.adjustments).toBeLessThan(costs['string-by-string']!.adjustments);
	expect(costs['string-by-string']!.adjustments).toBeLessThan(costs['all-at-once']!.adjustments);
	expect(costs['string-by-string']!.slackPeriods).toBeGreaterThan(6);
	expect(costs['all-at-once']!.slackPeriods).toBeLessThan(2);
	expect(saddleWayCosts({strings: 6, toMove: 0, secondMoveChance: 0.1}).every(cost => cost.adjustments === 0)).toBe(
		true,
	);
});
