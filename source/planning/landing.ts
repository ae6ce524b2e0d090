import {angleFor, type Belief, bridgeOf, springMomentNm} from '../estimation/belief.ts';
import {centsOn, grippedAt, held, only, type Pose, poseOf, sharingOf} from '../estimation/hold.ts';
import {restAngleRad, tensionAt, travelAt} from '../physics/bridge.ts';

/** Cents of every string for a guess at the unknowns; `undefined` when slack or off. */
export function centsOf(belief: Belief, x: ArrayLike<number>): (number | undefined)[] {
	return centsAt(belief, x, angleFor(belief, x));
}

/** The same with the plate at a known angle. */
export function centsAt(belief: Belief, x: ArrayLike<number>, angleRad: number): (number | undefined)[] {
	const bridge = bridgeOf(belief, x);
	return belief.strings.map((_, index) => centsOn(belief, bridge, index, angleRad));
}

/** Tension in newtons of every string for a guess at the unknowns. */
export function tensionsOf(belief: Belief, x: ArrayLike<number>): number[] {
	const bridge = bridgeOf(belief, x);
	const angle = restAngleRad(bridge);
	return belief.strings.map((_, index) => tensionAt(bridge, index, travelAt(bridge, index, angle)));
}

/** What is still to be turned and where each of those should stand at the end, cents by string. */
export interface Todo {
	readonly todo: ReadonlySet<number>;
	readonly endCents: readonly number[];
}

/** Every string of the set at 0 cents in the end. */
export function allAtPitch(belief: Belief, todo: ReadonlySet<number>): Todo {
	return {todo, endCents: belief.strings.map(() => 0)};
}

/** What `holdCents` takes: the end place for every string to be turned, `undefined` for the rest. */
export function endPlaces({todo, endCents}: Todo, except?: number): (number | undefined)[] {
	return endCents.map((cents, index) => (todo.has(index) && index !== except ? cents : undefined));
}

/**
 * Where each string to be turned must be set *now* so that it stands at its
 * end place when all are done: its peg goes straight to its last place, and
 * the others bring it home.
 *
 * @returns Cents by string; `undefined` for strings that are not to be turned.
 */
export function aimsOf(belief: Belief, x: Float64Array, plan: Todo): (number | undefined)[] {
	const now = poseOf(belief, x);
	const end = held(belief, now, endPlaces(plan));
	return belief.strings.map((_, index) => (plan.todo.has(index) ? aimFor(belief, now, end, index) : undefined));
}

/** Where one string must be set now, cents, for it to be at its place in `end` without being touched again. */
export function aimFor(belief: Belief, now: Pose, end: Pose, index: number): number | undefined {
	const x = Float64Array.from(now.x);
	const at = belief.layout.pull(index);
	x[at] = end.x[at]!;
	const bridge = grippedAt(belief, x, now.play, now.angleRad);
	if (bridge.slidesBelowM[index] !== Number.NEGATIVE_INFINITY || belief.strings[index]!.on !== 'sounding') {
		// On the way home wire slides in at once when the plate goes down, but only after its play when it goes up.
		const homeM = travelAt(bridge, index, end.angleRad);
		const width = bridge.slidesAboveM[index]! - bridge.slidesBelowM[index]!;
		bridge.slidesAboveM[index] = homeM;
		bridge.slidesBelowM[index] = homeM - (Number.isFinite(width) ? width : 0);
		bridge.sharing[index] = belief.nut === 'locked' ? 1 : sharingOf(belief, x, index);
	}

	bridge.springMomentNm = springMomentNm(belief, x, end.lean);
	return centsOn(belief, bridge, index, restAngleRad(bridge, now.angleRad));
}

/**
 * Where every string ends up, cents, if one is set to `aimCents` now and all
 * others that are to be turned are brought to their end places afterwards.
 */
export function landingOf(
	belief: Belief,
	x: Float64Array,
	plan: Todo,
	set: {readonly index: number; readonly aimCents: number},
): (number | undefined)[] {
	const now = held(belief, poseOf(belief, x), only(belief, set.index, set.aimCents));
	const end = held(belief, now, endPlaces(plan, set.index));
	return centsAt(belief, end.x, end.angleRad);
}
