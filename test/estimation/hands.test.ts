import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {afterMiss, sdOf, usualHands} from '../../source/estimation/hands.ts';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {nines} from '../helpers/instrument.ts';

describe('how much a tuner or a hand scatters', () => {
	test.each([0.3, 0.5, 1.5])('is found from misses of %s cents', truth => {
		const rng = rngFrom(3, Math.round(100 * truth));
		let scatter = usualHands.reading;
		for (let time = 0; time < 400; time++) scatter = afterMiss(scatter, truth * rng.normal(), 0.01);
		const {mean, sd} = sdOf(scatter);
		expect(Math.abs(mean - truth)).toBeLessThan(3 * sd + 0.02);
	});

	test('is surer the more was seen, and learns nothing from a miss that had another cause', () => {
		const seen = afterMiss(usualHands.stopping, 0.5, 0.1);
		expect(sdOf(seen).sd).toBeLessThan(sdOf(usualHands.stopping).sd);
		expect(afterMiss(usualHands.stopping, 9, 100)).toBe(usualHands.stopping);
	});

	test('is learned by the belief from re-plucks of a string that nothing touched', () => {
		const rng = rngFrom(4);
		let belief = priorBelief(nines(), {nut: 'locked', newness: 0});
		for (let time = 0; time < 60; time++)
			belief = learn(belief, {kind: 'pitch', index: 3, cents: -10 + 1.6 * rng.normal()});
		expect(sdOf(belief.hands.reading).mean).toBeGreaterThan(0.9);
	});
});
