import fc from 'fast-check';
import {expect, test} from 'vitest';
import {saddleBeliefOf, saddleTeller} from '../../source/estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {fretted, harmonic, measured, moved, open, plainThird, touched} from './saddle-strings.ts';

const model = plainThird();
const cents = fc.integer({min: -120, max: 120}).map(tenths => tenths / 10);
const happening: fc.Arbitrary<SaddleHappening> = fc.oneof(
	cents.map(open),
	cents.map(harmonic),
	cents.map(fretted),
	fc.integer({min: -30, max: 30}).map(tenths => moved(tenths / 10)),
	fc.integer({min: 0, max: 60}).map(tenths => measured(tenths / 10)),
	fc.constant(touched),
	fc.constant<SaddleHappening>({kind: 'restrung'}),
);

test('told bit by bit, with ends taken back and other ends put on, the belief is the one of the whole history', () => {
	const walks = fc.array(fc.record({keep: fc.nat(8), more: fc.array(happening, {maxLength: 4})}), {
		minLength: 1,
		maxLength: 5,
	});
	fc.assert(
		fc.property(walks, steps => {
			const teller = saddleTeller(model, {}, usualSaddleNoise);
			let history: readonly SaddleHappening[] = [];
			for (const {keep, more} of steps) {
				history = [...history.slice(0, keep), ...more];
				expect(teller(history)).toEqual(saddleBeliefOf(model, {}, history, usualSaddleNoise));
			}
		}),
		{numRuns: 40},
	);
});
