import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {linearisedAngle, linearisedCents, linearisedTail} from '../../source/estimation/reading-model.ts';
import {nines} from '../helpers/instrument.ts';

/** Guesses within about one prior spread of the mean. */
const guesses = fc.array(fc.double({min: -1, max: 1, noNaN: true}), {minLength: 33, maxLength: 33});

describe('gradients by the implicit function theorem agree with differences', () => {
	for (const nut of ['open', 'locked'] as const) {
		for (const blocked of [false, true]) {
			test(`nut ${nut}, ${blocked ? 'blocked' : 'free'}`, () => {
				const belief = {...priorBelief(nines(), {nut, newness: 0}), blocked};
				fc.assert(
					fc.property(guesses, steps => {
						const x = belief.mean.map(
							(value, at) => value + 0.5 * steps[at]! * Math.sqrt(belief.covariance.get(at, at)),
						);
						for (const predict of [
							(y: Float64Array) => linearisedAngle(belief, y),
							(y: Float64Array) => linearisedTail(belief, y),
							(y: Float64Array) => linearisedCents(belief, y, 2),
							(y: Float64Array) => linearisedCents(belief, y, 5),
						]) {
							const here = predict(x);
							if (!here) continue;
							for (let at = 0; at < x.length; at++) {
								const h = 1e-5;
								const up = Float64Array.from(x);
								const down = Float64Array.from(x);
								up[at]! += h;
								down[at]! -= h;
								const high = predict(up)?.value;
								const low = predict(down)?.value;
								if (high === undefined || low === undefined) continue;
								const slope = (high - low) / (2 * h);
								// A kink (stop, slack) between the two points is no error of the gradient.
								const kink = Math.abs(high + low - 2 * here.value) / h;
								expect(Math.abs(slope - here.gradient[at]!)).toBeLessThan(2e-3 * (1 + Math.abs(slope)) + 2 * kink);
							}
						}
					}),
					{numRuns: 60},
				);
			});
		}
	}
});
