import {describe, expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {clawByEar, clawByEarSdM} from '../../source/planning/claw-return.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {planTuning} from '../../source/planning/tuning-plan.ts';
import {
	drawGuitar,
	ensembles,
	type Guitar,
	removeSupport,
	supportAt,
	turnClawUntil,
} from '../../source/practice/index.ts';
import {tailM} from '../../source/practice/read.ts';
import {openCents} from '../../source/practice/sound.ts';
import {turnedByHand} from '../../source/practice/work.ts';
import {modelOf} from '../bench/model-of.ts';

const still = {tunerNoiseCents: 0, handErrorCents: 0, plateSdM: 0, clawSdTurns: 0};

/** Every string heard as it truly stands. */
function heardAll(belief: Belief, guitar: Guitar): Belief {
	return guitar.strings.reduce(
		(known, _, index) => learn(known, {kind: 'pitch', index, cents: openCents(guitar, index)!}),
		belief,
	);
}

/** A guitar never seen, its claw off, tuned on a support at level; then the support is out. */
function released(seed: number) {
	const spec = ensembles[seed % ensembles.length]!.spec;
	const came = drawGuitar(rngFrom(seed, 1), spec, {start: 'drift', ...still});
	let guitar = supportAt(rngFrom(seed, 2), came, 0);
	let belief = heardAll(priorBelief(modelOf(spec), {nut: 'open', newness: 0}), came);
	belief = learn(belief, {kind: 'support-in', tailM: 0});
	for (const index of guitar.strings.keys()) {
		guitar = turnedByHand(guitar, index, 0, 'peg').guitar;
		belief = learn(belief, {kind: 'turned', index, aimCents: 0});
		belief = learn(belief, {kind: 'pitch', index, cents: openCents(guitar, index)!});
	}

	guitar = removeSupport(guitar);
	return {guitar, belief: heardAll(learn(belief, {kind: 'support-out'}), guitar)};
}

const worst = (guitar: Guitar): number =>
	Math.max(...guitar.strings.map((_, index) => Math.abs(openCents(guitar, index) ?? 1200)));

describe('strings set on a level support, then let go', () => {
	test.each([1, 2, 3, 4, 5, 6, 7, 8])(
		'guitar %d: one turn of the claw by ear brings level and pitch back together',
		seed => {
			const {guitar, belief} = released(seed);
			const plan = planTuning(
				belief,
				usualGoal,
				belief.strings.map(() => 1),
			);
			const back = clawByEar(belief, usualGoal, plan);
			if (!back) {
				// Then the claw stood right as it came in, or the pegs do it as well.
				expect(plan.todo.size < 2 || worst(guitar) < 15).toBe(true);
				return;
			}
			const after = turnClawUntil(rngFrom(seed, 3), guitar, back.index, back.toCents).guitar;
			// What is left is friction at nut and knife edge: wire that slid on the way out slides back only after its play.
			expect(worst(after)).toBeLessThan(Math.max(3, 0.3 * worst(guitar)));
			expect(Math.abs(tailM(after))).toBeLessThan(Math.max(0.0002, 0.35 * Math.abs(tailM(guitar))));
		},
	);

	test('most of these guitars need it', () => {
		const turned = [1, 2, 3, 4, 5, 6, 7, 8].filter(seed => {
			const {belief} = released(seed);
			const reads = belief.strings.map(() => 1);
			return clawByEar(belief, usualGoal, planTuning(belief, usualGoal, reads)) !== undefined;
		});
		expect(turned.length).toBeGreaterThanOrEqual(4);
	});

	test('nothing is offered while the bridge is held', () => {
		const {belief} = released(3);
		const held = learn(belief, {kind: 'support-in', tailM: 0});
		const plan = {step: {kind: 'turn'}, todo: new Set([0, 1, 2]), now: []} as never;
		expect(clawByEar(held, usualGoal, plan)).toBeUndefined();
	});

	const heardOften = (cents: readonly number[]): Belief =>
		Array.from({length: 5}, () => cents)
			.flat()
			.reduce(
				(belief, each, at) => learn(belief, {kind: 'pitch', index: at % cents.length, cents: each}),
				priorBelief(modelOf(ensembles[1]!.spec), {nut: 'open', newness: 0}),
			);
	const offered = (cents: readonly number[]) => {
		const belief = heardOften(cents);
		const plan = planTuning(
			belief,
			usualGoal,
			cents.map(() => 99),
		);
		return {plan, back: clawByEar(belief, usualGoal, plan)};
	};

	test('with the pegs done and several strings sharp at the edge, a claw turned looser makes all likelier to be in', () => {
		const {plan, back} = offered([1.2, 1.4, 1.85, 1.5, 1.8, 1.8]);
		expect(plan.step.kind).toBe('done');
		expect(back!.advanceM).toBeLessThan(0);
		expect(Math.abs(back!.toCents)).toBeLessThan(1);
	});

	test('where they are in anyway, or each is off its own way, it is left alone', () => {
		expect(offered([0.5, 0.7, 0.4, 0.8, 0.3, 0.6])).toMatchObject({plan: {step: {kind: 'done'}}, back: undefined});
		expect(offered([1.75, -1.75, 1.7, -1.7, 1.75, -1.7]).back).toBeUndefined();
	});

	test('a turn that nobody counted leaves the springs less known than one that was', () => {
		const {belief} = released(3);
		const at = belief.layout.home;
		const [counted, byEar] = [0, clawByEarSdM(0.001)].map(sdM =>
			learn(belief, {kind: 'claw', advanceM: 0.001, sdM}).covariance.get(at, at),
		);
		expect(byEar!).toBeGreaterThan(counted!);
	});
});
