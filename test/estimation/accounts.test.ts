import {describe, expect, test} from 'vitest';
import {accountsOf, joined} from '../../source/estimation/accounts.ts';
import {priorBelief} from '../../source/estimation/belief.ts';
import {believe} from '../../source/estimation/believe.ts';
import {propagated} from '../../source/estimation/gaussian.ts';
import {learn} from '../../source/estimation/learn.ts';
import {priorSd} from '../../source/estimation/priors.ts';
import {nines} from '../helpers/instrument.ts';

const bare = priorBelief(nines(), {nut: 'open', newness: 1, isBare: true});
const {rate, stop} = bare.layout;

describe('with every string slack', () => {
	test('springs and stop are held in several accounts that together say what the prior says', () => {
		const all = accountsOf(bare);
		expect(all.length).toBeGreaterThan(3);
		expect(all.reduce((sum, {weight}) => sum + weight, 0)).toBeCloseTo(1, 9);
		const {estimates} = propagated(bare, x => [x[rate], x[stop]]);
		expect(estimates[0]!.mean).toBeCloseTo(0, 9);
		// Three parts a way make the whole a little narrower.
		for (const [which, sd] of [priorSd.rate, priorSd.stop].entries()) {
			expect(estimates[which]!.sd / sd).toBeGreaterThan(0.85);
			expect(estimates[which]!.sd / sd).toBeLessThan(1.02);
		}
	});

	test('it makes no difference whether they came in slack or were all taken off one by one', () => {
		const tight = priorBelief(nines(), {nut: 'open', newness: 0});
		const allButOne = believe(
			tight,
			[0, 1, 2, 3, 4].map(index => ({kind: 'off', index})),
		);
		expect(allButOne.others).toBeUndefined();
		expect(accountsOf(learn(allButOne, {kind: 'off', index: 5})).length).toBe(accountsOf(bare).length);
	});

	test('a bridge whose answer is known is not taken apart', () => {
		const covariance = bare.covariance.clone();
		covariance.set(rate, rate, 0.05 ** 2);
		const {others: _, ...known} = bare;
		expect(learn({...known, covariance}, {kind: 'off', index: 2}).others).toBeUndefined();
	});
});

describe('readings weigh the accounts', () => {
	const turn = (index: number, cents: number) =>
		[
			{kind: 'turned', index},
			{kind: 'pitch', index, cents},
		] as const;

	test('a string that falls by far as the next one is brought up speaks for softer springs than one that falls by half as much', () => {
		const up = believe(bare, [...turn(2, 500), ...turn(4, 300)]);
		const rateAfter = (fallCents: number) =>
			propagated(learn(up, {kind: 'pitch', index: 2, cents: 500 - fallCents}), x => [x[rate]]).estimates[0]!.mean;
		expect(rateAfter(230)).toBeLessThan(rateAfter(120));
	});

	test('those that cannot be told apart any more become one', () => {
		const {belief} = accountsOf(bare)[0]!;
		const twice = joined([
			{belief, weight: 0.5},
			{belief: {...belief, surprises: 1}, weight: 0.5},
		]);
		expect(twice.others).toBeUndefined();
	});

	test('one that foretold nothing well is dropped', () => {
		const [one, other] = accountsOf(bare);
		expect(joined([one!, {...other!, weight: 1e-5 * one!.weight}]).others).toBeUndefined();
	});
});

test('a quantity undefined in the leading account is undefined, and has no part in anything', () => {
	const {estimates, loadings} = propagated(bare, x => [undefined, x[rate]]);
	expect(estimates[0]).toBeUndefined();
	expect(loadings[0]!.every(each => each === 0)).toBe(true);
	expect(loadings[0]!.length).toBe(loadings[1]!.length);
});
