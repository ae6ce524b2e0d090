import {describe, expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {believe} from '../../source/estimation/believe.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {planTuning} from '../../source/planning/tuning-plan.ts';
import {nines} from '../helpers/instrument.ts';

const prior = priorBelief(nines(), {nut: 'open', newness: 0});
/** Every string read so often at these cents, nothing turned between. */
const readAt = (cents: readonly number[], times: number): Belief =>
	believe(
		prior,
		Array.from({length: times}, () =>
			cents.map((each, index) => ({kind: 'pitch', index, cents: each}) as const),
		).flat(),
	);
const planned = (cents: readonly number[], times: number) =>
	planTuning(
		readAt(cents, times),
		usualGoal,
		cents.map(() => times),
	);

describe('strings that may be in tune', () => {
	test('all a little sharp but within tolerance, heard often enough, none is turned', () => {
		// To turn one or two would throw the others out on a bridge whose answer is not known yet.
		expect([...planned([1.4, 1.6, 1.1, 1.5, 1, 1], 4).todo]).toEqual([]);
	});

	test('one on the edge of tolerance is heard again before anything is turned for it', () => {
		const {step, todo} = planned([0, 0, 0, 1.9, 0, 0], 1);
		expect([...todo]).toEqual([3]);
		expect(step).toMatchObject({kind: 'read', index: 3});
	});

	test('nor is another turned first that is surely out', () => {
		const {step, todo} = planned([0, 0, -6, 1.9, 0, 0], 1);
		expect([...todo].sort()).toEqual([2, 3]);
		expect(step).toMatchObject({kind: 'read', index: 3});
	});

	test('one far out is turned, and only that one', () => {
		const {step, todo} = planned([0, 0, -6, 0, 0, 0], 2);
		expect([...todo]).toEqual([2]);
		expect(step).toMatchObject({kind: 'turn', index: 2});
	});

	test('one that is surely out is never left there, however unsure the bridge', () => {
		const {step, todo} = planned([1, 1.2, 1.5, 1.6, 1.7, 3], 5);
		expect(step.kind).not.toBe('done');
		expect(todo.has(5)).toBe(true);
	});

	test('one that surely stands right is not turned for another', () => {
		for (const cents of [
			[0, 0.1, -0.1, 0, 1.9, 2.4],
			[0, 0, 0, 0.1, -2.6, -1.8],
		]) {
			const {todo} = planned(cents, 9);
			expect(todo.size).toBeGreaterThan(0);
			for (const index of [0, 1, 2, 3]) expect(todo.has(index)).toBe(false);
		}
	});
});
