import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
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
		const aim = aimed ? aimsUnderSupport(belief, new Set(strings))[index]!.mean : 0;
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

	test('brought to the aims they end at pitch, or much nearer, on bridges nobody measured', () => {
		const seeds = Array.from({length: 10}, (_, index) => index + 1);
		const ratios = seeds.map(seed => worst(openCentsAfter(true, seed)) / worst(openCentsAfter(false, seed)));
		// The bridge's stiffness is only guessed at before anything was turned, within a factor of 1.5.
		for (const ratio of ratios) expect(ratio).toBeLessThan(0.9);
		expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThan(0.55);
	});
});
