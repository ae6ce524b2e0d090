import {Matrix} from 'ml-matrix';
import {stiffnessAt, travelAt} from '../physics/bridge.ts';
import {type Belief, bridgeOf, wireFor} from './belief.ts';
import {spreadPoints} from './gaussian.ts';
import {held, only, type Pose, poseOf} from './hold.ts';
import {noise} from './priors.ts';
import {touched} from './settling.ts';

export interface Change {
	/** Unknowns that a hand has changed, for a guess at them. */
	readonly settings?: (x: Float64Array) => Float64Array;
	/** A string turned until it was read at these cents. */
	readonly hold?: {readonly index: number; readonly cents: number; readonly sdCents: number};
}

/**
 * From one arrangement to another with whatever the bridge does in between:
 * every pull goes where wire slid to, by the map `held`, followed one spread
 * to either side along each column of the covariance's root.
 */
export function moved(before: Belief, after: Belief, {settings = x => x, hold}: Change = {}): Belief {
	const {size} = before.layout;
	const holds = (cents: number) => (hold ? only(after, hold.index, cents) : after.strings.map(() => undefined));
	const step = (x: Float64Array, cents: number): Pose => held(after, poseOf(before, x), holds(cents), settings(x));
	const pose = step(before.mean, hold?.cents ?? 0);
	const ways = Matrix.zeros(size, size);
	for (const [k, point] of spreadPoints(before).entries()) {
		if (!point) continue;
		const high = step(point.up, hold?.cents ?? 0).x;
		const low = step(point.down, hold?.cents ?? 0).x;
		for (let row = 0; row < size; row++) ways.set(row, k, (high[row]! - low[row]!) / 2);
	}

	const covariance = ways.mmul(ways.transpose());
	if (hold) {
		const high = step(before.mean, hold.cents + 0.2).x;
		const low = step(before.mean, hold.cents - 0.2).x;
		const column = Matrix.columnVector(Array.from(high, (each, at) => ((each - low[at]!) / 0.4) * hold.sdCents));
		covariance.add(column.mmul(column.transpose()));
	}

	const result = {
		...after,
		mean: pose.x,
		covariance,
		lean: pose.lean,
		strings: after.strings.map((status, index) => ({...status, play: pose.play[index]!})),
	};
	return touched(withUnmodelled(result, poseOf(before, before.mean).angleRad, pose.angleRad, hold?.index), hold?.index);
}

/** What a movement of the bridge adds to the uncertainty of everything that was not turned. */
function withUnmodelled(belief: Belief, fromRad: number, toRad: number, except?: number): Belief {
	const bridge = bridgeOf(belief, belief.mean);
	const {layout} = belief;
	const covariance = belief.covariance.clone();
	const add = (at: number, sd: number) => covariance.set(at, at, covariance.get(at, at) + sd * sd);
	let mostM = 0;
	for (const [index, {on}] of belief.strings.entries()) {
		const toM = travelAt(bridge, index, toRad);
		const travelM = Math.abs(toM - travelAt(bridge, index, fromRad));
		mostM = Math.max(mostM, travelM);
		if (index === except || on !== 'sounding') continue;
		add(
			layout.pull(index),
			(noise.travelShare * travelM * stiffnessAt(bridge, index, toM)) / targetTensionN(belief, index),
		);
	}

	const isMoved = 1 - Math.exp(-mostM / smallTravelM);
	add(layout.balance, noise.frictionShare * belief.mean[layout.friction]! * isMoved);
	return {...belief, covariance};
}

/** Movements much smaller than this leave friction as it was, metres. */
const smallTravelM = 3e-6;

/** Tension at pitch, newtons, of a string as believed. */
function targetTensionN(belief: Belief, index: number): number {
	const wire = wireFor(belief, belief.mean, index);
	return wire.axialStiffnessN * wire.targetStrain;
}
