import {assert, constantFrom, double, property} from 'fast-check';
import {mean, standardDeviation} from 'simple-statistics';
import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {type Guitar, stringAt} from '../../source/practice/guitar.ts';
import {
	centreFineTuners,
	changeSprings,
	clampNut,
	fitString,
	measureTail,
	moveArm,
	openNut,
	placeSupport,
	pluck,
	removeString,
	slacken,
	stretchString,
	truth,
	turnClaw,
	turnTo,
} from '../../source/practice/index.ts';
import {anyDraw, guitarOf, ideal} from './guitars.ts';

const few = {numRuns: 40};
const anyString = constantFrom(0, 1, 2, 3, 4, 5);
const inTune = {start: 'level-and-in-tune'} as const;
const still = {...inTune, ...ideal};

describe('hand and tuner', () => {
	test('turnTo() ends within the hand and the noise, and shows what the tuner shows', () => {
		const guitar = guitarOf(4, 1, {...inTune, stretchScale: 0});
		const rng = rngFrom(9);
		const turns = Array.from({length: 1500}, () => {
			const {guitar: after, shown} = turnTo(rng, guitar, 3, -20, 'peg');
			return {true: truth(after).cents[3]!, shown: shown!};
		});
		// Drawn normal with sd 0.7 and 0.5 but cut at 2.5 sd, which leaves 0.953 of the sd; 1500 draws: 4 standard errors are 7 %.
		const errors = turns.map(turn => turn.true + 20);
		expect(Math.abs(mean(errors))).toBeLessThan(0.1);
		expect(Math.abs(standardDeviation(errors) / (0.953 * Math.hypot(0.7, 0.5)) - 1)).toBeLessThan(0.07);
		const noise = turns.map(turn => turn.shown - turn.true);
		expect(Math.abs(standardDeviation(noise) / (0.953 * 0.5) - 1)).toBeLessThan(0.07);
		expect(turns.every(({shown}) => Math.abs(shown * 10 - Math.round(shown * 10)) < 1e-9)).toBe(true);
	});

	test('a reading scatters by the tuner’s noise about the truth', () => {
		const guitar = guitarOf(5, 0, {start: 'drift'});
		const rng = rngFrom(10);
		const readings = Array.from({length: 1500}, () => pluck(rng, guitar, 2).cents!);
		expect(Math.abs(mean(readings) - truth(guitar).cents[2]!)).toBeLessThan(0.06);
		expect(Math.abs(standardDeviation(readings) / (0.953 * 0.5) - 1)).toBeLessThan(0.07);
	});

	test('the tail is measured to a tenth of a millimetre', () => {
		const guitar = guitarOf(5, 0, {start: 'drift'});
		const rng = rngFrom(11);
		const heights = Array.from({length: 1500}, () => measureTail(rng, guitar));
		expect(Math.abs(mean(heights) - truth(guitar).tailM)).toBeLessThan(1.2e-5);
		expect(Math.abs(standardDeviation(heights) / (0.953 * 0.1e-3) - 1)).toBeLessThan(0.07);
	});

	test('the same stream gives the same guitar, readings and turns', () => {
		assert(
			property(anyDraw, anyString, ([seed, ensemble], string) => {
				const once = turnTo(rngFrom(seed), guitarOf(seed, ensemble, {start: 'drift'}), string, 3, 'peg');
				const again = turnTo(rngFrom(seed), guitarOf(seed, ensemble, {start: 'drift'}), string, 3, 'peg');
				expect(again).toEqual(once);
			}),
			few,
		);
	});

	test('a guitar survives JSON, and acting on one leaves it as it was', () => {
		assert(
			property(anyDraw, ([seed, ensemble]) => {
				const guitar = guitarOf(seed, ensemble, {start: 'new-gauge'});
				const written = JSON.stringify(guitar);
				expect(JSON.parse(written)).toEqual(guitar);
				turnTo(rngFrom(seed), guitar, 1, 20, 'peg');
				moveArm(clampNut(rngFrom(seed), guitar), 'dive');
				expect(JSON.stringify(guitar)).toBe(written);
			}),
			few,
		);
	});
});

describe('strings', () => {
	test('a new string gives most at first, an old one next to nothing', () => {
		assert(
			property(anyDraw, ([seed, ensemble]) => {
				const rng = rngFrom(seed);
				const start = placeSupport(guitarOf(seed, ensemble, {...inTune, tunerNoiseCents: 0, handErrorCents: 0}));
				const tuned = turnTo(rng, fitString(rng, start, 2), 2, 0, 'peg').guitar;
				const once = stretchString(tuned, 2);
				const twice = stretchString(once, 2);
				const [first, second] = [give(tuned) - give(once), give(once) - give(twice)];
				expect(first).toBeGreaterThan(1.5 * second);
				expect(truth(once).cents[2]).toBeLessThan(-1);
				expect(give(start)).toBeLessThan(0.02e-3);
			}),
			few,
		);
	});

	test('plucking a new string flattens it too, by less than pulling it', () => {
		const rng = rngFrom(1);
		const start = guitarOf(3, 0, {...inTune, tunerNoiseCents: 0, handErrorCents: 0});
		const tuned = turnTo(rng, fitString(rng, placeSupport(start), 2), 2, 0, 'peg').guitar;
		const plucked = pluck(rng, tuned, 2).guitar;
		expect(give(tuned) - give(plucked)).toBeGreaterThan(0);
		expect(give(tuned) - give(plucked)).toBeLessThan(0.2 * (give(tuned) - give(stretchString(tuned, 2))));
	});

	test('off and slack strings give no reading', () => {
		const guitar = guitarOf(3, 0, inTune);
		expect(pluck(rngFrom(1), removeString(guitar, 1), 1).cents).toBeUndefined();
		expect(pluck(rngFrom(1), slacken(guitar, 1), 1).cents).toBeUndefined();
		expect(turnTo(rngFrom(1), removeString(guitar, 1), 1, 0, 'peg').shown).toBeUndefined();
		expect(truth(removeString(guitar, 1)).tensionN[1]).toBe(0);
	});

	test('wound far above its strength a string breaks and is off', () => {
		const broken = turnTo(rngFrom(1), guitarOf(3, 0, inTune), 0, 900, 'peg');
		expect(broken.broke).toBe(true);
		expect(broken.shown).toBeUndefined();
		expect(stringAt(broken.guitar, 0).on).toBe(false);
	});

	test('no string of any ensemble is near its strength at pitch', () => {
		assert(
			property(anyDraw, ([seed, ensemble]) => {
				const {tensionN, breakN} = truth(guitarOf(seed, ensemble, inTune));
				for (const [string, newton] of tensionN.entries()) expect(newton / breakN[string]!).toBeLessThan(0.7);
			}),
			few,
		);
	});
});

describe('nut and fine tuners', () => {
	test('clamping shifts each string by much the same amount each time, within 8 cents or so, and opening takes it back', () => {
		assert(
			property(anyDraw, ([seed, ensemble]) => {
				const guitar = placeSupport(guitarOf(seed, ensemble, still));
				const rng = rngFrom(seed);
				const [first, second] = [truth(clampNut(rng, guitar)).cents, truth(clampNut(rng, guitar)).cents];
				for (const [string, shift] of first.entries()) {
					expect(Math.abs(shift!)).toBeLessThan(9.2);
					// Two draws of sd 0.4, each cut at 2.5 sd.
					expect(Math.abs(shift! - second[string]!)).toBeLessThan(2.01);
				}

				for (const cents of truth(openNut(clampNut(rng, guitar))).cents) expect(Math.abs(cents!)).toBeLessThan(1e-6);
			}),
			few,
		);
	});

	test('locked, the pegs do nothing and a string answers the bridge more strongly', () => {
		const open = guitarOf(2, 0, still);
		const locked = guitarOf(2, 0, {...still, nut: 'locked'});
		const peg = turnTo(rngFrom(1), locked, 2, 30, 'peg');
		expect(peg.guitar).toBe(locked);
		expect(peg.ranOut).toBe(true);
		const dropped = (guitar: Guitar): number => truth(slackened(guitar, 0)).cents[2]!;
		expect(dropped(locked)).toBeGreaterThan(1.03 * dropped(open));
	});

	test('a fine tuner reaches what its travel allows and stops there', () => {
		assert(
			property(anyDraw, anyString, double({min: -300, max: 300, noNaN: true}), ([seed, ensemble], string, cents) => {
				const guitar = guitarOf(seed, ensemble, {...still, nut: 'locked'});
				const {guitar: after, ranOut, broke} = turnTo(rngFrom(seed), guitar, string, cents, 'fine-tuner');
				if (broke) return;
				const left = truth(after).fineTunerLeft[string]!;
				expect(left).toBeGreaterThanOrEqual(0);
				expect(left).toBeLessThanOrEqual(1);
				if (ranOut) {
					expect(left).toBe(cents > 0 ? 0 : 1);
					expect(Math.abs(truth(after).cents[string]!)).toBeLessThan(Math.abs(cents));
				} else {
					expect(truth(after).cents[string]).toBeCloseTo(cents, 6);
				}
			}),
			{numRuns: 100},
		);
	});

	test('centred fine tuners have half their travel left', () => {
		const guitar = guitarOf(2, 3, {...still, nut: 'locked'});
		const turned = turnTo(rngFrom(1), guitar, 1, 25, 'fine-tuner').guitar;
		expect(truth(turned).fineTunerLeft[1]).toBeLessThan(0.5);
		for (const left of truth(centreFineTuners(turned)).fineTunerLeft) expect(left).toBeCloseTo(0.5, 12);
		for (const cents of truth(centreFineTuners(turned)).cents) expect(Math.abs(cents!)).toBeLessThan(1e-5);
	});
});

describe('claw, springs, arm', () => {
	test('the claw pulls the tail down, sharpens everything, and ends somewhere', () => {
		const guitar = guitarOf(7, 1, still);
		const {guitar: tightened, ranOut} = turnClaw(rngFrom(1), guitar, {trebleTurns: 1, bassTurns: 1});
		expect(ranOut).toBe(false);
		expect(truth(tightened).tailM).toBeLessThan(truth(guitar).tailM - 0.1e-3);
		for (const cents of truth(tightened).cents) expect(cents).toBeGreaterThan(5);
		const far = turnClaw(rngFrom(1), guitar, {trebleTurns: 20, bassTurns: 20});
		expect(far.ranOut).toBe(true);
		expect(truth(far.guitar).clawLeftTurns[1]).toBe(0);
	});

	test('unequal screws act as their mean, give or take a little twist', () => {
		const guitar = guitarOf(7, 1, {...still, clawSdTurns: 0});
		const even = truth(turnClaw(rngFrom(1), guitar, {trebleTurns: 0.5, bassTurns: 0.5}).guitar);
		const uneven = truth(turnClaw(rngFrom(1), guitar, {trebleTurns: 1, bassTurns: 0}).guitar);
		expect(Math.abs(uneven.tailM - even.tailM)).toBeLessThan(0.05e-3);
		// Twist tips treble and bass opposite ways: it must be there, and must stay small.
		const tilt = uneven.cents[0]! - even.cents[0]!;
		expect(Math.abs(tilt)).toBeGreaterThan(0.01);
		expect(Math.abs(tilt)).toBeLessThan(8);
	});

	test('one spring more pulls the tail down, taken out again it is as before', () => {
		const guitar = guitarOf(7, 1, still);
		const more = changeSprings(rngFrom(1), guitar, guitar.springs.length + 1);
		expect(truth(more).tailM).toBeLessThan(truth(guitar).tailM - 0.5e-3);
		expect(changeSprings(rngFrom(2), more, guitar.springs.length).springs).toEqual(guitar.springs);
	});

	test('locked and sound, the bridge comes home to 1.5 cents from either side, never better than friction allows', () => {
		assert(
			property(anyDraw, ([seed, ensemble]) => {
				const guitar = guitarOf(seed, ensemble, {...inTune, nut: 'locked', stretchScale: 0});
				const [down, up] = [moveArm(guitar, 'dive'), moveArm(guitar, 'pull-up')].map(each => truth(each).cents);
				for (const [string, low] of down!.entries()) {
					// The dead band is 0.3 to 1.5 cents to either side for the string that reacts most; where the start stood in it is drawn.
					expect(Math.abs(low!)).toBeLessThan(3.05);
					expect(up![string]! - low!).toBeGreaterThan(0.05);
					expect(up![string]! - low!).toBeLessThan(3.05);
				}
			}),
			few,
		);
	});
});

const give = (guitar: Guitar): number => truth(guitar).giveM[2]!;

/** One string without tension whatever the nut: taken off. */
function slackened(guitar: Guitar, string: number): Guitar {
	return removeString(guitar, string);
}
