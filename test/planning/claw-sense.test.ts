import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {
	advanceFor,
	armOf,
	broughtBack,
	type ClawSense,
	clawTurned,
	firstSense,
	isArmGuessed,
	plateSeen,
	unsettled,
	withArmTold,
} from '../../source/planning/claw-sense.ts';
import {nines} from '../helpers/instrument.ts';

const belief = priorBelief(nines(), {nut: 'open', newness: 0});
const nothing = {mean: 0, sd: 0};
const arm = ({logArm}: ClawSense) => Math.exp(logArm);

describe('what a ruler and turns of the claw teach', () => {
	test('nothing measured: the plate may stand anywhere', () => {
		expect(advanceFor(firstSense(belief), 0).sd).toBeGreaterThan(0.005);
	});

	test('one measure tells the height, not the answer to the claw', () => {
		const before = firstSense(belief);
		const sense = plateSeen(before, 0.002, nothing);
		expect(sense.tailM).toBeCloseTo(0.002, 5);
		expect(sense.armVariance).toBe(before.armVariance);
	});

	test('a bridge that answers stronger than usual has a shorter arm, and the next step is right', () => {
		// True arm 26 mm where about 31 mm is usual.
		const trueArmM = 0.026;
		let sense = plateSeen(firstSense(belief), 0.003, nothing);
		const first = advanceFor(sense, 0).mean;
		const leftM = 0.003 - (first * sense.tailArmM) / trueArmM;
		expect(leftM).toBeLessThan(-0.0003);
		sense = plateSeen(clawTurned(sense, first), leftM, nothing);
		expect(arm(sense)).toBeLessThan(0.0275);
		const second = advanceFor(sense, 0).mean;
		expect(Math.abs(leftM - (second * sense.tailArmM) / trueArmM)).toBeLessThan(0.0001);
	});

	test('what the strings still have to bring is added before anything is learned', () => {
		const sense = plateSeen(firstSense(belief), 0.002, {mean: -0.0005, sd: 0.0001});
		expect(sense.tailM).toBeCloseTo(0.0015, 5);
	});

	test('strings set on a support and brought back to pitch: the plate stands where it was held, whatever was thought', () => {
		const before = plateSeen(firstSense(belief), 0.002, nothing);
		const sense = broughtBack(before, 0.0005);
		expect(sense.tailM).toBe(0.0005);
		expect(Math.sqrt(sense.tailVariance)).toBeLessThan(0.00015);
		expect([sense.logArm, sense.armVariance]).toEqual([before.logArm, before.armVariance]);
		// Nothing is left to turn.
		expect(Math.abs(advanceFor(sense, 0.0005).mean)).toBeLessThan(1e-9);
	});

	test('other springs leave the arm known and the height open', () => {
		const sense = plateSeen(firstSense(belief), 0.002, nothing);
		const after = unsettled(sense, 'springs');
		expect(after.logArm).toBe(sense.logArm);
		expect(after.tailVariance).toBeGreaterThan(10 * sense.tailVariance);
	});
});

describe('the springs’ arm told', () => {
	test('is believed nearly as told, and the answer to the claw by a third surer; how the bridge softens stays open', () => {
		const told = withArmTold(belief, 0.044);
		const {springArm} = belief.layout;
		expect(0.04 * Math.exp(told.mean[springArm]!)).toBeCloseTo(0.0436, 3);
		const [before, after] = [belief, told].map(each => Math.sqrt(firstSense(each).armVariance));
		expect(after! / before!).toBeGreaterThan(0.7);
		expect(after! / before!).toBeLessThan(0.85);
		expect(isArmGuessed(firstSense(belief))).toBe(true);
		expect(isArmGuessed(firstSense(told))).toBe(false);
	});
});

describe('laws', () => {
	const turns = fc.array(fc.double({min: -0.004, max: 0.004, noNaN: true}), {maxLength: 6});

	test('turns made in portions are one turn', () => {
		fc.assert(
			fc.property(turns, portions => {
				const start = plateSeen(firstSense(belief), 0.001, nothing);
				const inPortions = portions.reduce(clawTurned, start);
				const atOnce = clawTurned(
					start,
					portions.reduce((sum, each) => sum + each, 0),
				);
				expect(inPortions.tailM).toBeCloseTo(atOnce.tailM, 12);
				expect(inPortions.shared).toBeCloseTo(atOnce.shared, 12);
			}),
		);
	});

	test('a plate that stands as wished needs no turn', () => {
		fc.assert(
			fc.property(fc.double({min: -0.005, max: 0.005, noNaN: true}), wishM => {
				const sense = {...firstSense(belief), tailM: wishM};
				expect(advanceFor(sense, wishM).mean).toBe(0);
			}),
		);
	});

	test('spreads stay spreads', () => {
		fc.assert(
			fc.property(turns, portions => {
				let sense = firstSense(belief);
				for (const advanceM of portions) sense = plateSeen(clawTurned(sense, advanceM), sense.tailM, nothing);
				expect(sense.tailVariance).toBeGreaterThan(0);
				expect(sense.armVariance).toBeGreaterThan(0);
				expect(sense.shared ** 2).toBeLessThanOrEqual(sense.tailVariance * sense.armVariance * (1 + 1e-9));
			}),
		);
	});

	test('the instrument’s memory gives back what was learned of the arm', () => {
		let sense = plateSeen(firstSense(belief), 0.003, nothing);
		sense = plateSeen(clawTurned(sense, 0.0022), -0.0004, nothing);
		const back = firstSense(belief, armOf(sense));
		expect(back.logArm).toBeCloseTo(sense.logArm, 12);
		// A little less sure, for what weeks and other strings change.
		expect(back.armVariance).toBeGreaterThan(sense.armVariance);
		expect(back.armVariance).toBeLessThan(sense.armVariance + 0.015 ** 2);
	});
});
