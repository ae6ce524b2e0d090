import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {type Fault, moveArm, pluck, truth} from '../../source/practice/index.ts';
import {guitarOf, ideal} from './guitars.ts';

const locked = {start: 'level-and-in-tune', nut: 'locked', ...ideal} as const;
const withFault = (fault: Fault) => guitarOf(8, 0, {...locked, faults: [fault]});
const cents = (guitar: Parameters<typeof truth>[0]): number[] => truth(guitar).cents.map(each => each!);

describe('a hidden fault shows only in what it does', () => {
	test('slipping string: flat by so much after the first dive, by half as much more after the second, others sharp', () => {
		const start = withFault({kind: 'slipping-string', string: 2, cents: 12});
		expect(Math.max(...cents(start).map(Math.abs))).toBeLessThan(1e-6);
		const once = cents(moveArm(start, 'dive'));
		const twice = cents(moveArm(moveArm(start, 'dive'), 'dive'));
		// 12 cents with the plate held; the bridge takes some back, and the rest is the other strings' gain.
		expect(once[2]).toBeGreaterThan(-12.5);
		expect(once[2]).toBeLessThan(-6);
		expect(twice[2]! / once[2]!).toBeCloseTo(1.5, 1);
		for (const other of [0, 1, 3, 4, 5]) expect(once[other]).toBeGreaterThan(0);
	});

	test('loose saddle: creeps forward while it is played, the string goes flat and the 12th sharp', () => {
		let guitar = withFault({kind: 'loose-saddle', string: 4, creepM: 0.8e-3});
		const before = truth(guitar);
		for (let pluckCount = 0; pluckCount < 6; pluckCount++) guitar = pluck(rngFrom(1), guitar, 4).guitar;
		const after = truth(guitar);
		expect((before.saddleM[4]! - after.saddleM[4]!) * 1000).toBeCloseTo(0.8, 1);
		expect(after.cents[4]).toBeLessThan(-20);
		expect(after.fretted12ErrorCents[4]! - before.fretted12ErrorCents[4]!).toBeGreaterThan(1.5);
	});

	test('sticky pivot: the plate does not come home, every string by its own answer to the bridge', () => {
		const start = withFault({kind: 'sticky-pivot', cents: 6});
		const left = cents(moveArm(start, 'dive'));
		// Most on the plain third, about 6 cents, less on all others, all flat after a dive.
		expect(Math.abs(Math.min(...left) + 6)).toBeLessThan(0.5);
		for (const each of left) expect(each).toBeLessThan(0);
		expect(left[0]! / left[2]!).toBeLessThan(0.6);
		for (const each of cents(moveArm(start, 'pull-up'))) expect(each).toBeGreaterThan(0);
	});

	test('loose claw: backs out at each move of the arm, tail up, all flat', () => {
		const start = withFault({kind: 'loose-claw', turns: 0.1});
		const once = moveArm(start, 'pull-up');
		expect(once.claw.trebleTurns).toBeCloseTo(-0.1, 12);
		expect(truth(once).tailM).toBeGreaterThan(truth(start).tailM);
		for (const each of cents(once)) expect(each).toBeLessThan(0);
	});

	test('tuner reference: every reading off alike, the guitar is not', () => {
		const start = withFault({kind: 'tuner-reference', cents: 7});
		for (const string of [0, 3, 5]) expect(pluck(rngFrom(1), start, string).cents).toBeCloseTo(-7, 1);
		expect(Math.max(...cents(start).map(Math.abs))).toBeLessThan(1e-6);
	});

	test('unsettled string: goes flat with use', () => {
		let guitar = withFault({kind: 'unsettled-string', string: 1, giveM: 0.1e-3});
		for (let move = 0; move < 5; move++) guitar = moveArm(guitar, 'dive');
		expect(cents(guitar)[1]).toBeLessThan(-5);
	});
});
