import {mean, standardDeviation} from 'simple-statistics';
import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {ensembles, measureSprings, turnClaw} from '../../source/practice/index.ts';
import {rigOf, springN, springsOpenM} from '../../source/practice/rig.ts';
import {guitarOf} from './guitars.ts';

const guitars = Array.from({length: 300}, (_, seed) =>
	guitarOf(seed, seed % ensembles.length, {start: 'level-and-in-tune'}),
);
const openM = (guitar: (typeof guitars)[number]) =>
	springsOpenM(rigOf(guitar), guitar.angleRad)[Math.floor(guitar.springs.length / 2)]!;

describe('a ruler along the springs of a practice guitar', () => {
	test('shows the stretch of a middle spring, right on average, off by some 0.6 mm', () => {
		const offMm = guitars.map((guitar, seed) => {
			const {nowM, closedM} = measureSprings(rngFrom(seed, 9), guitar);
			expect(closedM).toBeGreaterThan(0.04);
			expect(closedM).toBeLessThan(0.055);
			return (nowM - closedM - openM(guitar)) * 1000;
		});
		expect(Math.abs(mean(offMm))).toBeLessThan(0.12);
		expect(standardDeviation(offMm)).toBeGreaterThan(0.5);
		expect(standardDeviation(offMm)).toBeLessThan(0.75);
	});

	test('that stretch is what the spring pulls with', () => {
		for (const guitar of guitars.slice(0, 20)) {
			const spring = guitar.springs[0]!;
			const {closedM, initialN, rateNPerM} = spring;
			const stretchM = springsOpenM(rigOf(guitar), guitar.angleRad)[0]!;
			expect(springN(spring, closedM + stretchM)).toBeCloseTo(initialN + rateNPerM * stretchM, 6);
		}
	});

	test('it is longer once the claw was turned tighter', () => {
		for (const guitar of guitars.slice(0, 20)) {
			const tighter = turnClaw(rngFrom(1), guitar, {trebleTurns: 2, bassTurns: 2}).guitar;
			expect(openM(tighter)).toBeGreaterThan(openM(guitar));
		}
	});
});
