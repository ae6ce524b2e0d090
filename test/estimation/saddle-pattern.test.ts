import {expect, test} from 'vitest';
import {fretErrorCentsAt, saddleMmFor} from '../../source/estimation/saddle-model.ts';
import {saddlePatternOf} from '../../source/estimation/saddle-pattern.ts';
import {plainThird} from './saddle-strings.ts';

const model = plainThird();
const readErrors = [0.2, -0.3, 0.1, -0.1, 0.25, -0.2];
const frets = [1, 3, 5, 12, 17, 19];

function patternOf(truth: (fret: number) => number, at = frets) {
	const readings = at.map((fret, index) => ({fret, cents: truth(fret) + readErrors[index]!, plucks: 2}));
	return saddlePatternOf(model, readings, 2, 0.6);
}

test('a saddle out of place is a saddle error, and the travel brings the 12th home', () => {
	const pattern = patternOf(fret => fretErrorCentsAt(model, fret, 1));
	expect(pattern.causes[0]).toMatchObject({cause: 'saddle'});
	expect(Math.abs(pattern.travelMm.mean - (saddleMmFor(model, 0) - 1))).toBeLessThan(0.3);
	for (const {cents, soundCents} of pattern.leftCents) expect(Math.abs(cents - soundCents)).toBeLessThan(0.7);
});

test('a nut too high shows on the first frets, and no saddle mends it', () => {
	const high = plainThird({nutHeightM: 0.65e-3});
	const pattern = patternOf(fret => fretErrorCentsAt(high, fret, saddleMmFor(high, 0)));
	expect(pattern.causes[0]).toMatchObject({cause: 'nut-height'});
	expect(pattern.causes[0]!.amount!.mean).toBeCloseTo(0.3, 1);
	expect(pattern.worstLeftCents).toBeGreaterThan(3);
});

test('one fret alone is named, with how far it is off', () => {
	const pattern = patternOf(fret => fretErrorCentsAt(model, fret, 2) + (fret === 17 ? 6 : 0));
	expect(pattern.causes[0]).toMatchObject({cause: 'one-fret', fret: 17});
	expect(Math.abs(pattern.causes[0]!.amount!.mean - 6)).toBeLessThan(1.5);
});

test('errors without order are an old string', () => {
	const dents: Record<number, number> = {1: 4, 3: -3, 5: 5, 12: -4, 17: 4, 19: -6};
	const pattern = patternOf(fret => fretErrorCentsAt(model, fret, 3) + dents[fret]!);
	expect(pattern.causes[0]).toMatchObject({cause: 'old-string'});
});

test('without low frets, nut and saddle cannot be told apart, and it does not pretend to', () => {
	const high = plainThird({nutHeightM: 0.65e-3});
	const pattern = patternOf(fret => fretErrorCentsAt(high, fret, saddleMmFor(high, 0)), [5, 12, 17, 19]);
	expect(pattern.causes[0]!.probability).toBeLessThan(0.85);
});

test('probabilities add up, and two frets are not enough', () => {
	const pattern = patternOf(fret => fretErrorCentsAt(model, fret, 1));
	expect(pattern.causes.reduce((sum, {probability}) => sum + probability, 0)).toBeCloseTo(1, 9);
	expect(() => saddlePatternOf(model, [{fret: 12, cents: 1, plucks: 1}], 2, 0.6)).toThrow(
		'saddlePatternOf: expected readings at three frets or more, got 1',
	);
});
