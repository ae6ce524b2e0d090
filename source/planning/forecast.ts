import {angleFor, angleFromLevel, type Belief, bridgeOf} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {holdCents} from '../estimation/hold.ts';
import {learn} from '../estimation/learn.ts';
import {noise, priorSd} from '../estimation/priors.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {centsPerLogTension, stiffnessAt, tensionAt} from '../physics/elastic-string.ts';
import {travelAt} from '../physics/lever.ts';
import {centsOf} from './landing.ts';

/** Something a hand may do next, in physical terms; `index` counts from 0 = thinnest. */
export type Act =
	| {readonly kind: 'turn'; readonly index: number; readonly toCents: number}
	| {readonly kind: 'slacken'; readonly indices: readonly number[]}
	| {readonly kind: 'remove'; readonly index: number}
	| {readonly kind: 'claw'; readonly advanceM: number}
	| {readonly kind: 'unsupport'}
	| {readonly kind: 'clamp'};

/** What an act will do through the bridge, before it is done. */
export interface Consequences {
	/** By string: cents it will move; `undefined` for the touched ones, slack ones and those off. */
	readonly moves: readonly (Estimate | undefined)[];
	/** Change of the tail's height, metres, positive = up. */
	readonly tipM: Estimate;
}

/** Forecast of an act from a belief, with the spread that a reading of the move itself would have (its own noise left out). */
export function consequencesOf(belief: Belief, act: Act): Consequences {
	const after = afterwards(belief, act);
	const touched = new Set(act.kind === 'slacken' ? act.indices : 'index' in act ? [act.index] : []);
	const {estimates} = propagated(belief, x => {
		const y = after(x);
		const before = centsOf(belief, x);
		const then = centsOf(y.belief, y.x);
		const tip =
			-belief.model.tailArmM * (Math.sin(angleFromLevel(y.belief, y.x)) - Math.sin(angleFromLevel(belief, x)));
		return [
			...before.map((cents, index) => {
				const later = then[index];
				return touched.has(index) || cents === undefined || later === undefined ? undefined : later - cents;
			}),
			tip,
		];
	});
	const travelM = Math.abs(travelChange(belief, after));
	const moves = estimates.slice(0, -1).map(
		(estimate, index) =>
			estimate && {
				mean: estimate.mean,
				sd: Math.hypot(estimate.sd, act.kind === 'clamp' ? noise.clampCents : unmodelledCents(belief, index, travelM)),
			},
	);
	return {moves, tipM: estimates.at(-1) ?? {mean: 0, sd: 0}};
}

type After = (x: Float64Array) => {belief: Belief; x: Float64Array};

function afterwards(belief: Belief, act: Act): After {
	switch (act.kind) {
		case 'turn': {
			const hold = belief.strings.map((_, index) => (index === act.index ? act.toCents : undefined));
			return x => ({belief, x: holdCents(belief, x, hold).x});
		}
		case 'slacken':
		case 'remove': {
			const indices = act.kind === 'slacken' ? act.indices : [act.index];
			return x => {
				const y = Float64Array.from(x);
				for (const index of indices) y[belief.layout.pull(index)] = -4;
				return {belief, x: y};
			};
		}
		case 'claw': {
			const {layout} = belief;
			return x => {
				// The claw's effect depends on the guess, so the guess is learned from, not the mean.
				const turned = learn({...belief, mean: x}, {kind: 'claw', advanceM: act.advanceM});
				const y = Float64Array.from(x);
				y[layout.balance] = turned.mean[layout.balance]!;
				y[layout.home] = turned.mean[layout.home]!;
				return {belief, x: y};
			};
		}
		case 'unsupport':
			return x => ({belief: {...belief, blocked: false}, x});
		case 'clamp':
			// The clamp's own pull is not known before it was seen once; only its spread is.
			return x => ({belief, x});
	}
}

function travelChange(belief: Belief, after: After): number {
	const lever = bridgeOf(belief, belief.mean).strings[0]!;
	const y = after(belief.mean);
	return travelAt(lever, angleFor(y.belief, y.x)) - travelAt(lever, angleFor(belief, belief.mean));
}

/** Cents that friction and grip, which the model leaves out, may add to a move by a given travel. */
export function unmodelledCents(belief: Belief, index: number, travelM: number): number {
	if (belief.blocked) return noise.touchCents;
	const bridge = bridgeOf(belief, belief.mean);
	const angle = angleFor(belief, belief.mean);
	const string = bridge.strings[index]!;
	const travel = travelAt(string, angle);
	const tension = tensionAt(string, travel);
	if (tension <= 0) return 0;
	const perMetre = (centsPerLogTension * stiffnessAt(string, travel)) / tension;
	let stiffness = bridge.springRateNmPerRad / string.armM ** 2;
	for (const other of bridge.strings) stiffness += stiffnessAt(other, travelAt(other, angle));
	const heldN = (priorSd.friction * bridge.springMomentAtLevelNm) / string.armM;
	const renewed = 1 - Math.exp(-(2 * travelM) / noise.frictionRenewalM);
	return Math.hypot(
		perMetre * noise.travelShare * travelM,
		Math.sqrt(2 * renewed) * perMetre * (heldN / stiffness),
		noise.touchCents + 0.5 * noise.newStringCents * belief.strings[index]!.newness,
	);
}
