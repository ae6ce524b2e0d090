import fc from 'fast-check';
import {expect, test} from 'vitest';
import {saddleBeliefOf} from '../../source/estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {planSaddle} from '../../source/planning/saddle-plan.ts';
import {saddleTravelOf} from '../../source/planning/saddle-travel.ts';
import {fretted, harmonic, moved, plainThird, touched} from '../estimation/saddle-strings.ts';

const model = plainThird();
const stepAfter = (history: readonly SaddleHappening[]) =>
	planSaddle(
		saddleBeliefOf(model, {}, history, usualSaddleNoise),
		{wishCents: 0, toleranceCents: 2},
		saddleTravelOf(undefined, undefined),
	).step;

const tenths = (most: number) => fc.integer({min: -10 * most, max: 10 * most}).map(count => count / 10);
const happening: fc.Arbitrary<SaddleHappening> = fc.oneof(
	tenths(12).map(harmonic),
	tenths(12).map(fretted),
	tenths(3).map(moved),
	fc.constant(touched),
);

test('what is to be done about a saddle does not change because something else was touched', () => {
	fc.assert(
		fc.property(fc.array(happening, {maxLength: 14}), history => {
			expect(stepAfter([...history, touched])).toEqual(stepAfter(history));
		}),
		{numRuns: 60},
	);
});
