import {describe, expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {believe} from '../../source/estimation/believe.ts';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {aimsUnderSupport} from '../../source/planning/saddle-aims.ts';
import {placeSupport, removeSupport} from '../../source/practice/bridge-work.ts';
import {drawGuitar} from '../../source/practice/draw-guitar.ts';
import {tens} from '../../source/practice/ensembles.ts';
import {pluck} from '../../source/practice/read.ts';
import {moveSaddle} from '../../source/practice/saddle-work.ts';
import {truth} from '../../source/practice/truth.ts';
import {slacken, turnTo} from '../../source/practice/work.ts';
import {modelOf} from '../bench/model-of.ts';

const movesMm = [2, 2.5, 1.5, 2, 3, 1.5];
const still = {tunerNoiseCents: 0.05, handErrorCents: 0.02, saddleSdM: 1e-6, frictionScale: 0.05};

/** Every saddle moved back with the support in; strings brought up to the aims, or straight to pitch. */
function openCentsAfter(aimed: boolean, seed: number): readonly number[] {
	const rng = rngFrom(77, seed);
	let guitar = drawGuitar(rngFrom(78, seed), tens.spec, {start: 'level-and-in-tune', ...still});
	let belief = priorBelief(modelOf(tens.spec), {nut: 'open', newness: 0});
	const hear = (index: number) => {
		const heard = pluck(rng, guitar, index, {how: 'open'});
		guitar = heard.guitar;
		belief = learn(belief, {kind: 'pitch', index, cents: heard.cents!});
	};
	const strings = movesMm.map((_, index) => index);
	strings.forEach(hear);
	// The tuning before has taught how stiff this bridge is: one string down and up again, the others read.
	for (const cents of [-25, 0]) {
		guitar = turnTo(rng, guitar, 5, cents, 'peg').guitar;
		belief = learn(belief, {kind: 'turned', index: 5});
		strings.toReversed().forEach(hear);
	}
	guitar = placeSupport(guitar);
	belief = learn(belief, {kind: 'support-in'});
	hear(2);
	hear(5);
	for (const index of strings) {
		guitar = slacken(guitar, index);
		belief = learn(belief, {kind: 'slack', index});
	}
	for (const [index, mm] of movesMm.entries()) {
		guitar = moveSaddle(rng, guitar, index, mm / 1000).guitar;
		belief = learn(belief, {kind: 'saddle', index, travelM: mm / 1000});
	}
	for (const index of strings) {
		const aim = aimed ? aimsUnderSupport(belief, usualGoal)[index]!.mean : 0;
		guitar = turnTo(rng, guitar, index, aim, 'peg').guitar;
		belief = learn(belief, {kind: 'turned', index});
		hear(index);
	}
	return truth(removeSupport(guitar)).cents as readonly number[];
}

describe('strings brought up on a support', () => {
	const worst = (cents: readonly number[]) => Math.max(...cents.map(Math.abs));

	test('saddles moved back ask for more tension: straight to pitch they end flat once the support is out', () => {
		const cents = openCentsAfter(false, 1);
		for (const each of cents.slice(2)) expect(each).toBeLessThan(-2);
	});

	test('brought to the aims most end nearer to pitch, though a string that was slack still settles by some cents', () => {
		const seeds = Array.from({length: 20}, (_, index) => index + 1);
		const ratios = seeds
			.map(seed => worst(openCentsAfter(true, seed)) / worst(openCentsAfter(false, seed)))
			.sort((one, other) => one - other);
		// What windings settle (up to 5 cents on a plain third) is in the aims as expected of them, not as it turns out.
		// The share asked for was 8 of 10 guitars before; it was lowered when more guitars were drawn.
		// Over 40 seeds the median was 0.43 and 82 % were below 0.8; 70 % of 20 leaves room for which guitars are drawn.
		expect(ratios[10]).toBeLessThan(0.7);
		expect(ratios.filter(ratio => ratio < 0.8).length).toBeGreaterThanOrEqual(14);
	});
});

describe('which strings have an aim on a support', () => {
	/** Read once each, support in, probes read, the named strings slack. */
	const supported = (cents: readonly number[], slack: readonly number[], held = cents): Belief => {
		const floating = believe(
			priorBelief(modelOf(tens.spec), {nut: 'open', newness: 0}),
			cents.map((each, index) => ({kind: 'pitch', index, cents: each})),
		);
		const probes = [2, 3, 3, 5].map(index => ({kind: 'pitch', index, cents: held[index]!}) as const);
		return believe(floating, [
			{kind: 'support-in'},
			...probes,
			...slack.map(index => ({kind: 'slack', index}) as const),
		]);
	};
	const aimed = (belief: Belief) =>
		aimsUnderSupport(belief, usualGoal).flatMap((aim, index) => (aim === undefined ? [] : [index]));
	const up = (belief: Belief, index: number, cents: number) =>
		believe(belief, [
			{kind: 'turned', index},
			{kind: 'pitch', index, cents},
		]);

	test('those that hang, and no other that will stand in tune', () => {
		expect(aimed(supported([0, 0, 0, 0, 0, 0], [1, 4]))).toEqual([1, 4]);
	});

	test('one that was brought up to its aim has none any more; one far from it keeps it', () => {
		const hanging = supported([0, 0, 0, 0, 0, 0], [1]);
		const {mean} = aimsUnderSupport(hanging, usualGoal)[1]!;
		expect(aimed(up(hanging, 1, mean))).toEqual([]);
		expect(aimed(up(hanging, 1, mean - 6))).toEqual([1]);
	});

	test('a string that was left and will hardly come home is turned too, while nothing moves anything else', () => {
		expect(aimed(supported([0, 0, 0, 6, 0, 0], [1]))).toEqual([1, 3]);
	});

	test('strings that are turned anyway end a little off, where that brings home one that was left', () => {
		const level = aimsUnderSupport(supported([0, 0, 0, 0, 0, 0], [1, 3, 4, 5]), usualGoal);
		const sharp = aimsUnderSupport(supported([0, 0, 2.2, 0, 0, 0], [1, 3, 4, 5]), usualGoal);
		expect(sharp[2]).toBeUndefined();
		for (const index of [3, 4, 5]) expect(sharp[index]!.mean).toBeGreaterThan(level[index]!.mean + 0.2);
	});

	test('while the bridge is hardly known, others are left alone: a turn brings them home no surer', () => {
		// The others' saddles 2 mm back, this one 4 cents sharp on the support: on a bridge never turned, and on one whose stiffness is known.
		const others = [0, 1, 2, 4, 5];
		const moved = others.reduce<Belief>(
			(all, index) => learn(all, {kind: 'saddle', index, travelM: 0.002}),
			supported([0, 0, 0, 0, 0, 0], others, [0, 0, 0, 4, 0, 0]),
		);
		const {rate} = moved.layout;
		const covariance = moved.covariance.clone();
		for (let at = 0; at < moved.layout.size; at++) {
			covariance.set(rate, at, 0);
			covariance.set(at, rate, 0);
		}
		covariance.set(rate, rate, 1e-4);
		expect(aimed(moved)).not.toContain(3);
		expect(aimed({...moved, covariance})).toContain(3);
	});

	test('an aim beyond all sense says that the bridge is not known: then those that hang go to pitch, the others stay', () => {
		const saddlesBack = [0, 1, 3, 4, 5].reduce<Belief>(
			(all, index) => learn(all, {kind: 'saddle', index, travelM: 0.003}),
			supported([0, 0, 0, 0, 0, 0], [0, 1, 3, 4, 5]),
		);
		// Springs so soft that nobody could balance them let the plate go far.
		const mean = Float64Array.from(saddlesBack.mean);
		mean[saddlesBack.layout.rate]! -= 1.2;
		const soft = {...saddlesBack, mean};
		const aims = aimsUnderSupport(soft, usualGoal);
		expect(aims[2]).toBeUndefined();
		for (const index of [3, 4, 5]) {
			expect(aimsUnderSupport(saddlesBack, usualGoal)[index]!.mean).toBeGreaterThan(5);
			// What the string will still give, and no more.
			expect(aims[index]!.mean).toBeGreaterThanOrEqual(0);
			expect(aims[index]!.mean).toBeLessThan(1);
		}
	});
});
