import {describe, expect, test} from 'vitest';
import {errorAfterMove, saddleBeliefOf, travelFor} from '../../source/estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {asideCents, frettedCentsAt, saddleMmFor, slopeCentsPerMm} from '../../source/estimation/saddle-model.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {bendCents} from '../../source/physics/bend.ts';
import {fretted, harmonic, measured, moved, open, plainThird, sharpByEight, touched} from './saddle-strings.ts';

const model = plainThird();
const beliefAfter = (...history: SaddleHappening[]) => saddleBeliefOf(model, {}, history, usualSaddleNoise);
const likeliest = (...history: SaddleHappening[]) => beliefAfter(...history).causes[0]!;

test('before any reading the saddle is where the model wants it, give or take some cents', () => {
	const belief = beliefAfter();
	expect(belief.isRead).toBe(false);
	expect(belief.errorCents.mean).toBeCloseTo(0, 6);
	expect(belief.errorCents.sd).toBeGreaterThan(4);
	expect(belief.positionMm.mean).toBeCloseTo(saddleMmFor(model, 0), 6);
});

test('one reading of each gives the error, three give it more surely', () => {
	const one = beliefAfter(harmonic(0.3), fretted(8.2));
	const three = beliefAfter(...sharpByEight);
	expect(one.errorCents.mean).toBeCloseTo(7.8, 0);
	// The plucks' own difference is 7.7; a finger that strays aside has part in it.
	expect(three.errorCents.mean).toBeCloseTo(7.7 - asideCents(model), 1);
	expect(three.errorCents.sd).toBeLessThan(0.7 * one.errorCents.sd);
	expect(three.plucks.fretted).toMatchObject({count: 3});
	expect(three.plucks.fretted.meanCents).toBeCloseTo(7.97, 2);
	expect(three.plucks.fretted.sdCents).toBeCloseTo(0.32, 2);
});

test('a finger strays to either side and only ever sharpens: most where a string answers a stretch most', () => {
	// About what a plain string is thick, on a plain third: a fifth of a cent by Pythagoras and κ = 402 (physics: bend).
	expect(asideCents(plainThird({giveShare: 0}))).toBeGreaterThan(0.1);
	expect(asideCents(plainThird({giveShare: 0}))).toBeLessThan(0.25);
	// A bridge that gives takes its share back.
	expect(asideCents(plainThird({giveShare: 0.5}))).toBeLessThan(0.6 * asideCents(plainThird({giveShare: 0})));
	const belief = beliefAfter(...Array.from({length: 20}, () => [harmonic(0), fretted(3)]).flat());
	expect(belief.errorCents.mean).toBeCloseTo(3 - asideCents(model), 1);
});

test('where the open string stands does not matter: only the difference counts', () => {
	const low = beliefAfter(harmonic(-20), fretted(-12));
	const high = beliefAfter(harmonic(15), fretted(23));
	expect(low.errorCents.mean).toBeCloseTo(high.errorCents.mean, 1);
});

test('readings before and after something was touched are not subtracted from each other', () => {
	const apart = beliefAfter(harmonic(0), touched, fretted(30));
	expect(apart.isRead).toBe(false);
	expect(Math.abs(apart.errorCents.mean)).toBeLessThan(3);
});

test('an open reading serves in place of the harmonic, its stretched octave allowed for', () => {
	const byOpen = beliefAfter(open(0), fretted(5));
	const byHarmonic = beliefAfter(harmonic(0.25), fretted(5));
	expect(byOpen.errorCents.mean).toBeCloseTo(byHarmonic.errorCents.mean, 1);
});

test('a move takes the error along the full model’s curve and adds what the hand adds', () => {
	const before = beliefAfter(...sharpByEight);
	const foretold = errorAfterMove(before, 2.5);
	const after = beliefAfter(...sharpByEight, moved(2.5));
	expect(after.errorCents.mean).toBeCloseTo(foretold.mean, 6);
	expect(after.errorCents.sd).toBeCloseTo(foretold.sd, 2);
	expect(after.errorCents.mean - before.errorCents.mean).toBeCloseTo(
		frettedCentsAt(model, before.positionMm.mean + 2.5) - frettedCentsAt(model, before.positionMm.mean),
		6,
	);
});

test('the travel asked for is the one that is expected to land', () => {
	const before = beliefAfter(...sharpByEight);
	const travel = travelFor(before, 0);
	expect(travel.mean).toBeGreaterThan(2.7);
	expect(travel.mean).toBeLessThan(3);
	expect(errorAfterMove(before, travel.mean).mean).toBeCloseTo(0, 6);
	// A player who presses hard wants it flat on paper: farther back.
	expect(travelFor(before, -2).mean).toBeGreaterThan(travel.mean + 0.6);
});

test('a string that answered less than the model says is believed to go on doing so', () => {
	// Moved 3 mm, only 85 % of the change came, read often: then a second move of the same size is given more travel.
	const history = [...sharpByEight, moved(3), ...Array.from({length: 6}, () => [harmonic(0), fretted(0.8)]).flat()];
	const belief = beliefAfter(...history);
	expect(belief.slopeRatio.mean).toBeLessThan(0.99);
	expect(belief.slopeRatio.sd).toBeLessThan(usualSaddleNoise.slopeRatio);
});

test('a new string’s error is unknown again although its saddle has not moved', () => {
	const belief = beliefAfter(...sharpByEight, {kind: 'restrung'});
	expect(belief.isRead).toBe(false);
	expect(belief.errorCents.sd).toBeGreaterThan(3);
});

describe('stories', () => {
	test('what was foretold came: as expected', () => {
		expect(likeliest(...sharpByEight, moved(2.85), harmonic(0.2), fretted(0.6)).cause).toBe('as-expected');
	});

	test('sharper than foretold, every pluck alike: the saddle crept towards the neck', () => {
		const history = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(3.3), harmonic(0.1), fretted(3.2)];
		expect(likeliest(...history)).toMatchObject({cause: 'crept'});
		// A ruler that finds it forward of where it was left settles it; one that finds it in place speaks against.
		const measuredFirst = (at: number) =>
			saddleBeliefOf(model, {}, [measured(0.5), ...history, measured(at)], usualSaddleNoise).causes[0]!;
		expect(measuredFirst(2.3)).toMatchObject({cause: 'crept'});
		expect(measuredFirst(2.3).probability).toBeGreaterThan(0.95);
		expect(measuredFirst(3.35).cause).not.toBe('crept');
	});

	test('falling from reading to reading after a move: it creeps on', () => {
		const history = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(-29), harmonic(-49), fretted(-60)];
		expect(likeliest(...history)).toMatchObject({cause: 'crept'});
	});

	test('flat once and for all between two readings: the string slipped', () => {
		const history = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(-9), harmonic(-9.3), fretted(-9)];
		expect(likeliest(...history)).toMatchObject({cause: 'slipped'});
		// And the saddle is not blamed: what the slip took is given back.
		expect(Math.abs(beliefAfter(...history).errorCents.mean)).toBeLessThan(1);
	});

	test('sharp and scattered: the note was bent or pressed hard', () => {
		expect(
			likeliest(...sharpByEight, moved(2.85), harmonic(0.2), fretted(3.3), fretted(7.5), fretted(5)),
		).toMatchObject({
			cause: 'bent',
		});
	});

	test('as much the other way: it was moved towards the neck', () => {
		const history = [...sharpByEight, moved(2.85), harmonic(0.2), fretted(15.6), harmonic(0.1), fretted(15.3)];
		expect(likeliest(...history)).toMatchObject({cause: 'wrong-way'});
		expect(beliefAfter(...history).positionMm.mean).toBeLessThan(0);
	});

	test('a sheet that does not fit the guitar is no story: readings are believed', () => {
		const belief = saddleBeliefOf(model, {positionMm: 7}, sharpByEight, usualSaddleNoise);
		expect(belief.causes[0]!.cause).toBe('as-expected');
		expect(belief.errorCents.mean).toBeCloseTo(7.7 - asideCents(model), 1);
	});
});

test('the spread covers the truth as often as it claims, on strings unlike the model', () => {
	const rng = rngFrom(5, 2024);
	const misses: number[] = [];
	// Anywhere within half a millimetre to either side: it only ever sharpens.
	const astray = () => bendCents((0.5e-3 * (2 * rng.uniform() - 1)) / 0.324, 402);
	let covered = 0;
	const trials = 300;
	for (let trial = 0; trial < trials; trial++) {
		const truth = plainThird({
			actionM: 1.2e-3 + 1e-3 * rng.uniform(),
			giveShare: 0.1 + 0.2 * rng.uniform(),
		});
		const startMm = saddleMmFor(truth, 0) + 6 * (rng.uniform() - 0.5);
		const read = (at: number, times: number) =>
			Array.from({length: times}, () => [
				harmonic(0.5 * rng.normal()),
				fretted(frettedCentsAt(truth, at) + astray() + 0.55 * rng.normal()),
			]).flat();
		const before = read(startMm, 3);
		const travel = travelFor(beliefAfter(...before), 0).mean;
		const endMm = startMm + travel + 0.15 * rng.normal();
		const belief = beliefAfter(...before, moved(travel), ...read(endMm, 2));
		const miss = (frettedCentsAt(truth, endMm) - belief.errorCents.mean) / belief.errorCents.sd;
		misses.push(miss);
		if (Math.abs(miss) < 1.645) covered++;
	}
	// 90 % claimed; 300 trials leave ± 5 % at three standard errors.
	expect(covered / trials).toBeGreaterThan(0.84);
	expect(covered / trials).toBeLessThan(0.96);
	expect(Math.abs(misses.reduce((sum, miss) => sum + miss, 0) / trials)).toBeLessThan(0.25);
});

test('the model’s slope is the one of the length, a little steeper', () => {
	expect(slopeCentsPerMm(model, 3)).toBeGreaterThan(-2.76);
	expect(slopeCentsPerMm(model, 3)).toBeLessThan(-2.66);
});
