import {type Belief, levelRad, slackPull} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {held, only, type Pose, poseOf} from '../estimation/hold.ts';
import {withClaw} from '../estimation/deeds.ts';
import {noise} from '../estimation/priors.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {centsAt} from './landing.ts';

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
		const now = poseOf(belief, x);
		const then = after(now);
		const before = centsAt(belief, now.x, now.angleRad);
		const later = centsAt(belief, then.x, then.angleRad);
		const tilt = (pose: Pose) => Math.sin(pose.angleRad - levelRad(belief, pose.x));
		return [
			...before.map((cents, index) => {
				const there = later[index];
				return touched.has(index) || cents === undefined || there === undefined ? undefined : there - cents;
			}),
			-belief.model.tailArmM * (tilt(then) - tilt(now)),
		];
	});
	const moves = estimates.slice(0, -1).map(
		(estimate, index) =>
			estimate && {
				mean: estimate.mean,
				sd: Math.hypot(
					estimate.sd,
					act.kind === 'clamp' ? noise.clampCents : unmodelledCents(belief, index, estimate.mean),
				),
			},
	);
	return {moves, tipM: estimates.at(-1) ?? {mean: 0, sd: 0}};
}

function afterwards(belief: Belief, act: Act): (now: Pose) => Pose {
	const nobody = belief.strings.map(() => undefined);
	switch (act.kind) {
		case 'turn': {
			const turned = only(belief, act.index, act.toCents);
			return now => held(belief, now, turned);
		}
		case 'slacken':
		case 'remove': {
			const indices = act.kind === 'slacken' ? act.indices : [act.index];
			return now => {
				const settings = Float64Array.from(now.x);
				for (const index of indices) settings[belief.layout.pull(index)] = slackPull;
				return held(belief, now, nobody, settings);
			};
		}
		case 'claw':
			return now => held(belief, now, nobody, withClaw(belief, now.x, act.advanceM));
		case 'unsupport':
			return now => held({...belief, blocked: false}, now, nobody);
		case 'clamp':
			// The clamp's own pull is not known before it was seen once; only its spread is.
			return now => now;
	}
}

/** Cents that what the model leaves out may add to a move of so many cents. */
export function unmodelledCents(belief: Belief, index: number, moveCents: number): number {
	const still = noise.touchCents + 0.5 * noise.newStringCents * belief.strings[index]!.newness;
	return belief.blocked ? still : Math.hypot(noise.travelShare * moveCents, noise.stickCents, still);
}
