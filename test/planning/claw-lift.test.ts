import {describe, expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {clawLift} from '../../source/planning/claw-lift.ts';
import {drawGuitar, ensembles, type Guitar, liftClear, removeSupport, supportAt} from '../../source/practice/index.ts';
import {tailM} from '../../source/practice/read.ts';
import {openCents} from '../../source/practice/sound.ts';
import {turnedByHand} from '../../source/practice/work.ts';
import {modelOf} from '../bench/model-of.ts';

const still = {tunerNoiseCents: 0, handErrorCents: 0, plateSdM: 0, clawSdTurns: 0};
const tighter = {mean: 0.001, sd: 0.0002};
const looser = {mean: -0.001, sd: 0.0002};
const open = {mean: 0.0002, sd: 0.001};

/** A guitar never seen whose plate would stand off by so much, tuned on a support at level. */
function heldLevel(seed: number, plateOffM: number): {readonly guitar: Guitar; readonly belief: Belief} {
	const spec = ensembles[seed % ensembles.length]!.spec;
	let guitar = supportAt(
		rngFrom(seed, 2),
		drawGuitar(rngFrom(seed, 1), spec, {start: 'drift', plateOffM, ...still}),
		0,
	);
	let belief = learn(priorBelief(modelOf(spec), {nut: 'open', newness: 0}), {kind: 'support-in', tailM: 0});
	for (const index of guitar.strings.keys()) {
		guitar = turnedByHand(guitar, index, 0, 'peg').guitar;
		belief = learn(belief, {kind: 'turned', index, aimCents: 0});
		belief = learn(belief, {kind: 'pitch', index, cents: openCents(guitar, index)!});
	}

	return {guitar, belief};
}

const worst = (guitar: Guitar): number =>
	Math.max(...guitar.strings.map((_, index) => Math.abs(openCents(guitar, index) ?? 1200)));

describe('strings set on a level support', () => {
	describe.each([1, 2, 3, 4, 5, 6, 7, 8])('guitar %d', seed => {
		test.each([
			['high', 0.002, tighter, 'rising'],
			['low', -0.002, looser, 'falling'],
		] as const)('its tail would stand %s: freed by the claw it stays level and in tune', (_, offM, advanceM, from) => {
			const {guitar, belief} = heldLevel(seed, offM);
			const lift = clawLift(belief, advanceM)!;
			expect(lift.from).toBe(from);
			const freed = liftClear(rngFrom(seed, 3), guitar, lift.index, lift.toCents, lift.from).guitar;
			expect(worst(freed)).toBeLessThan(1.5);
			expect(Math.abs(tailM(freed))).toBeLessThan(0.0001);
			// Let go as it is it would have gone off by ten times that.
			expect(worst(removeSupport(guitar))).toBeGreaterThan(15);
			// And nothing holds it any more.
			expect(removeSupport(freed).angleRad).toBeCloseTo(freed.angleRad, 9);
		});

		test('freed on the side it does not lean on, it comes home all the same', () => {
			const {guitar, belief} = heldLevel(seed, -0.002);
			const lift = clawLift(belief, open)!;
			expect(lift.from).toBe('rising');
			const freed = liftClear(rngFrom(seed, 3), guitar, lift.index, lift.toCents, lift.from).guitar;
			expect(worst(freed)).toBeLessThan(3);
			expect(Math.abs(tailM(freed))).toBeLessThan(0.0002);
		});
	});

	test('nothing is said while the bridge floats, or while a string was not heard', () => {
		const {belief} = heldLevel(3, 0.002);
		expect(clawLift(learn(belief, {kind: 'support-out'}), tighter)).toBeUndefined();
		expect(clawLift(learn(belief, {kind: 'turned', index: 2, aimCents: 0}), tighter)).toBeUndefined();
		expect(clawLift(learn(belief, {kind: 'off', index: 2}), tighter)).toBeUndefined();
	});

	test('the string listened to is one of those that would go farthest', () => {
		for (const seed of [1, 2, 3, 4, 5, 6]) {
			const {guitar, belief} = heldLevel(seed, 0.002);
			const gone = removeSupport(guitar);
			const moves = guitar.strings.map((_, index) => Math.abs(openCents(gone, index) ?? 1200));
			expect(moves[clawLift(belief, tighter)!.index]! / Math.max(...moves)).toBeGreaterThan(0.6);
		}
	});

	test('it stops at pitch, or where the support keeps the string if that is farther on', () => {
		const {belief} = heldLevel(3, 0.002);
		const sharp = belief.strings.reduce((all, _, index) => learn(all, {kind: 'pitch', index, cents: 1.5}), belief);
		expect(clawLift(sharp, tighter)!.toCents).toBeGreaterThan(0);
		expect(clawLift(sharp, looser)!.toCents).toBe(0);
	});
});
