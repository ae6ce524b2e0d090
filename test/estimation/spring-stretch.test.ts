import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {accountsOf} from '../../source/estimation/accounts.ts';
import {asBuilt, priorAsBuilt} from '../../source/estimation/as-built.ts';
import {type Belief, nominalMomentNm, nominalRateNmPerRad, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {learnedFrom, recalled} from '../../source/estimation/memory.ts';
import {nominal} from '../../source/estimation/priors.ts';
import {foreseenStretchM, linearisedStretch, openingStretchM} from '../../source/estimation/spring-stretch.ts';
import {initialTensionN, preferredInitialStressPa, springRateNPerM} from '../../source/physics/helical-spring.ts';
import {withArmTold} from '../../source/planning/claw-sense.ts';
import {withOldStrings} from '../../source/planning/old-strings.ts';
import {plateUnknown} from '../../source/planning/plate-unknown.ts';
import {forecastChange} from '../../source/planning/set-change.ts';
import {nines} from '../helpers/instrument.ts';

const model = nines();
const fresh = priorBelief(model, {nut: 'locked', newness: 0});
const bare = priorBelief(model, {nut: 'open', newness: 1, isBare: true});
const {rate, arm, springArm, stop, balance} = fresh.layout;
const told = (belief: Belief, stretchM: number) => learn(belief, {kind: 'stretch', stretchM});
const sd = ({covariance}: Belief, at: number) => Math.sqrt(covariance.get(at, at));

/** A half-step lower: other strings' worth of pull on the same springs. */
const lower = {
	...model,
	strings: model.strings.map(string => ({...string, targetHz: string.targetHz / 2 ** (1 / 12)})),
};
const change = (from: typeof model, stretchM?: number) => {
	const before = learn(plateUnknown(withOldStrings(fresh, from, 0), 0), {kind: 'tail', tailM: 0});
	return forecastChange(stretchM === undefined ? before : told(before, stretchM), 0).claw.advanceM;
};

describe('what is expected of the springs', () => {
	test('moment over moment per metre of the claw: M a / K, less what opens the coils', () => {
		const wholeM = (nominal.springArmM * nominalMomentNm(model)) / nominalRateNmPerRad(model);
		expect(foreseenStretchM(fresh)).toBeCloseTo(wholeM - openingStretchM.mean, 6);
	});

	test('its slopes are those of differences, with strings on and off', () => {
		for (const belief of [fresh, accountsOf(bare)[0]!.belief]) {
			const {value, gradient} = linearisedStretch(belief, belief.mean);
			for (const at of belief.mean.keys()) {
				const x = Float64Array.from(belief.mean);
				x[at]! += 1e-6;
				expect((linearisedStretch(belief, x).value - value) / 1e-6).toBeCloseTo(gradient[at]!, 3);
			}
		}
	});

	test('with no string on the plate lies on its stop, and the springs stand shorter by the way to it', () => {
		const {belief} = accountsOf(bare)[0]!;
		const armM = nominal.springArmM * Math.exp(belief.mean[springArm]!);
		const level = {...belief, mean: belief.mean.with(stop, 0)};
		expect(foreseenStretchM(level) - foreseenStretchM(belief)).toBeCloseTo(armM * belief.mean[stop]!, 9);
	});

	test('springs as makers wind them, part of the initial tension taken out by heat, open within two spreads of what is taken', () => {
		const {mean, sd} = openingStretchM;
		for (const [wireMm, coilMm, activeTurns] of [
			[1.1, 6.5, 42],
			[1.2, 6.2, 40],
			[1.3, 6, 38],
		] as const) {
			const spring = {
				wireDiameterM: wireMm / 1000,
				coilDiameterM: coilMm / 1000,
				activeTurns,
				// Music wire, Shigley, table 10-5; from memory.
				shearModulusPa: 81e9,
			};
			const [least, most] = preferredInitialStressPa(coilMm / wireMm);
			const openingM = (stressPa: number) => initialTensionN(spring, stressPa) / springRateNPerM(spring);
			expect(openingM(0.5 * least)).toBeGreaterThan(mean - 2 * sd);
			expect(openingM(0.75 * most)).toBeLessThan(mean + 2 * sd);
		}
	});
});

describe('a ruler along the springs', () => {
	test('tells how they answer, and claw turns for a change are surer by a third', () => {
		const belief = withOldStrings(fresh, lower, 0);
		expect(sd(told(belief, foreseenStretchM(belief)), rate)).toBeLessThan(0.6 * sd(belief, rate));
		expect(change(lower, foreseenStretchM(belief)).sd).toBeLessThan(0.7 * change(lower).sd);
	});

	test('showing what was expected changes no mean', () => {
		const after = told(fresh, foreseenStretchM(fresh));
		for (const at of [rate, arm, springArm, balance]) expect(after.mean[at]).toBeCloseTo(fresh.mean[at]!, 9);
	});

	test('is taken in by the account of a plate that came in on its stop as well', () => {
		const after = told(priorAsBuilt(fresh), 0.03);
		expect(after.rival).toBeDefined();
		expect(Number.isFinite(after.rival!.lead)).toBe(true);
		for (const each of [after, after.rival!.belief]) expect(each.mean[rate]).toBeLessThan(-0.2);
	});

	test('weighs the accounts of a bridge bare of strings, and all of them learn', () => {
		const after = accountsOf(told(bare, 0.03));
		expect(after.reduce((sum, {weight}) => sum + weight, 0)).toBeCloseTo(1, 9);
		const mean = (accounts: typeof after) =>
			accounts.reduce((sum, {belief, weight}) => sum + weight * belief.mean[rate]!, 0);
		expect(mean(after)).toBeLessThan(mean(accountsOf(bare)) - 0.2);
	});

	test('the arm told before or after comes to the same', () => {
		const built = priorAsBuilt(fresh);
		const [one, other] = [told(withArmTold(built, 0.044), 0.02), withArmTold(told(built, 0.02), 0.044)];
		for (const at of [rate, arm, springArm]) {
			expect(one.mean[at]).toBeCloseTo(other.mean[at]!, 2);
			expect(sd(one, at)).toBeCloseTo(sd(other, at), 2);
		}
	});

	test('what the parts of a bridge have in common is put in once', () => {
		const after = told(asBuilt(withOldStrings(fresh, lower, 0)), 0.02);
		const plainly = told(withOldStrings(fresh, lower, 0), 0.02);
		expect(after.mean[rate]).toBeCloseTo(plainly.mean[rate]!, 9);
		expect(asBuilt(after)).toBe(after);
	});

	test('takes nothing from what an earlier set-up taught', () => {
		const covariance = fresh.covariance.clone();
		covariance.set(rate, rate, 0.06 ** 2);
		const known = recalled(fresh, learnedFrom({...fresh, covariance}), {newStrings: true, newSprings: false});
		const before = withOldStrings(known, lower, 0);
		const after = told(before, foreseenStretchM(before));
		expect(sd(after, rate)).toBeLessThanOrEqual(sd(before, rate));
		expect(forecastChange(after, 0).claw.advanceM.sd).toBeLessThan(forecastChange(before, 0).claw.advanceM.sd);
		// A reading one and a half spreads off moves a rate so well known by less than its own spread.
		const off = told(before, foreseenStretchM(before) * 1.2);
		expect(Math.abs(off.mean[rate]! - before.mean[rate]!)).toBeLessThan(sd(before, rate));
	});
});

describe('laws', () => {
	const stretches = fc.double({min: 0.004, max: 0.04, noNaN: true});

	test('a set swapped for itself needs no turn, whatever the stretch', () => {
		fc.assert(
			fc.property(stretches, stretchM => {
				// What is left is what the springs say of the old strings' pitch, which nobody read: their pull is known to 2 %.
				expect(Math.abs(change(model, stretchM).mean)).toBeLessThan(0.006 * (stretchM + openingStretchM.mean));
			}),
			{numRuns: 20},
		);
	});

	test('turns for a change are the same share of the effective stretch, whatever springs and arms give it', () => {
		const ln = fc.double({min: -0.5, max: 0.5, noNaN: true});
		const start = withOldStrings(fresh, lower, 0);
		const share = (belief: Belief) =>
			forecastChange(belief, 0).claw.advanceM.mean / Math.exp(linearisedStretch(belief, belief.mean).value);
		fc.assert(
			fc.property(ln, ln, ln, (...logs) => {
				const mean = Float64Array.from(start.mean);
				for (const [which, at] of [rate, arm, springArm].entries()) mean[at]! += logs[which]!;
				expect(share({...start, mean}) / share(start)).toBeCloseTo(1, 6);
			}),
			{numRuns: 20},
		);
	});

	test('the more they are seen to stand stretched, the more turns', () => {
		fc.assert(
			fc.property(stretches, fc.double({min: 1.1, max: 2, noNaN: true}), (stretchM, times) => {
				expect(change(lower, stretchM * times).mean).toBeGreaterThan(change(lower, stretchM).mean);
			}),
			{numRuns: 20},
		);
	});
});
