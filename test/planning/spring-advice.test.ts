import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {springForceRangeN} from '../../source/planning/claw-limits.ts';
import {outlookOf, springAdvice, type SpringCase} from '../../source/planning/spring-advice.ts';

/** Three springs of 2 N/mm at 40 N, claw nearly right, six turns either way. */
const usual: SpringCase = {
	springs: 3,
	advanceM: {mean: 0.0008, sd: 0.0001},
	springForceN: 40,
	springRateNPerM: 2000,
	pitchM: 0.0017,
	travelLeftM: {looser: 0.01, tighter: 0.01},
	tailPerAdvance: 0.9,
};

describe('turns are enough', () => {
	test('within travel and pull', () => {
		expect(springAdvice(usual)).toMatchObject({kind: 'turns-will-do', outlook: {springs: 3, forceN: 40}});
	});
});

describe('turns are not enough', () => {
	test('springs drawn too far: one more, each pulls less, claw looser', () => {
		const advice = springAdvice({...usual, springForceN: 100});
		// 300 N shared by four is 75 N: 25 N less is 12.5 mm less stretch at 2 N/mm, too much for this claw; five are worse.
		expect(advice).toMatchObject({kind: 'cannot', trouble: 'over-drawn'});
		const roomy = springAdvice({...usual, springForceN: 100, travelLeftM: {looser: 0.02, tighter: 0.01}});
		expect(roomy).toMatchObject({kind: 'add', count: 1, trouble: 'over-drawn', outlook: {springs: 4, forceN: 75}});
		if (roomy.kind !== 'add') throw new Error('expected to add');
		expect(roomy.outlook.turns * 1.7).toBeCloseTo(0.8 - 12.5, 9);
	});

	test('coils touching: one fewer', () => {
		const advice = springAdvice({...usual, springs: 5, springForceN: 11});
		expect(advice).toMatchObject({
			kind: 'remove',
			count: 1,
			trouble: 'coils-touch',
			outlook: {springs: 4, forceN: 13.75},
		});
	});

	test('claw home by less than a hook gives: re-hook', () => {
		const advice = springAdvice({...usual, advanceM: {mean: 0.0104, sd: 0}});
		expect(advice).toMatchObject({kind: 're-hook', way: 'tighter', trouble: 'claw-home'});
	});

	test('thread out, and another spring would be too much: softer ones', () => {
		const advice = springAdvice({...usual, springs: 1, springForceN: 60, advanceM: {mean: -0.013, sd: 0}});
		// One spring fewer there is none; two would need the claw looser still.
		expect(advice).toMatchObject({kind: 'exchange', way: 'softer', trouble: 'thread-out'});
		if (advice.kind !== 'exchange') throw new Error('expected an exchange');
		// 60 N at 2 N/mm is 30 mm; 8 mm more stretch brings the claw from 13 to 5 mm looser.
		expect(advice.ratio).toBeCloseTo(30 / 38, 9);
	});

	test('what cannot be had is said with what can', () => {
		const advice = springAdvice({...usual, springs: 6, springForceN: 95, advanceM: {mean: 0.012, sd: 0}});
		expect(advice.kind).toBe('cannot');
		if (advice.kind !== 'cannot') throw new Error('expected that it cannot be had');
		expect(advice.atEnd.turns).toBeCloseTo(0.01 / 0.0017, 9);
		// 2 mm of advance missing leaves the tail 1.8 mm high.
		expect(advice.atEnd.tailOffM).toBeCloseTo(0.0018, 9);
		expect(advice.pullShare).toBeCloseTo(90 / 95 - 1, 9);
	});
});

const anyCase: fc.Arbitrary<SpringCase> = fc.record({
	springs: fc.integer({min: 1, max: 6}),
	advanceM: fc.record({mean: fc.double({min: -0.03, max: 0.03, noNaN: true}), sd: fc.constant(0)}),
	springForceN: fc.double({min: 3, max: 150, noNaN: true}),
	springRateNPerM: fc.double({min: 1000, max: 4000, noNaN: true}),
	pitchM: fc.double({min: 0.0005, max: 0.003, noNaN: true}),
	travelLeftM: fc.record({
		looser: fc.double({min: 0, max: 0.02, noNaN: true}),
		tighter: fc.double({min: 0, max: 0.02, noNaN: true}),
	}),
	tailPerAdvance: fc.double({min: 0.3, max: 2, noNaN: true}),
});

describe('laws', () => {
	test('the moment is kept: springs times pull is the same for any number of springs', () => {
		fc.assert(
			fc.property(anyCase, fc.integer({min: 1, max: 6}), (now, springs) => {
				expect(outlookOf(now, springs).forceN * springs).toBeCloseTo(now.springForceN * now.springs, 6);
			}),
		);
	});

	test('the springs that are fitted need the turns that were planned', () => {
		fc.assert(
			fc.property(anyCase, now => {
				expect(outlookOf(now, now.springs).turns).toBeCloseTo(now.advanceM.mean / now.pitchM, 9);
			}),
		);
	});

	test('whatever is advised is within travel and pull', () => {
		fc.assert(
			fc.property(anyCase, now => {
				const advice = springAdvice(now);
				if (advice.kind === 'cannot') {
					expect(Math.abs(advice.atEnd.tailOffM) + Math.abs(advice.pullShare)).toBeGreaterThan(0);
					return;
				}

				const {forceN, turns} = advice.outlook;
				const advanceM = turns * now.pitchM;
				expect(forceN).toBeGreaterThanOrEqual(springForceRangeN[0]);
				expect(forceN).toBeLessThanOrEqual(springForceRangeN[1]);
				expect(advanceM).toBeGreaterThanOrEqual(-now.travelLeftM.looser - 1e-12);
				expect(advanceM).toBeLessThanOrEqual(now.travelLeftM.tighter + 1e-12);
			}),
		);
	});
});
