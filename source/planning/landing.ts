import type {Belief} from '../estimation/belief.ts';
import {angleFor, bridgeOf} from '../estimation/belief.ts';
import {holdCents, only} from '../estimation/hold.ts';
import {frequencyAt, tensionAt} from '../physics/elastic-string.ts';
import {travelAt} from '../physics/lever.ts';

/** Cents of every string for a guess at the unknowns; `undefined` when slack or off. */
export function centsOf(belief: Belief, x: ArrayLike<number>): (number | undefined)[] {
	const bridge = bridgeOf(belief, x);
	const angle = angleFor(belief, x);
	return bridge.strings.map((string, index) => {
		const frequencyHz = frequencyAt(string, travelAt(string, angle));
		return frequencyHz === undefined
			? undefined
			: 1200 * Math.log2(frequencyHz / belief.model.strings[index]!.targetHz);
	});
}

/** Tension in newtons of every string for a guess at the unknowns. */
export function tensionsOf(belief: Belief, x: ArrayLike<number>): number[] {
	const bridge = bridgeOf(belief, x);
	const angle = angleFor(belief, x);
	return bridge.strings.map(string => tensionAt(string, travelAt(string, angle)));
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
export function aimsOf(belief: Belief, x: ArrayLike<number>, plan: Todo): (number | undefined)[] {
	const end = holdCents(belief, x, endPlaces(plan)).x;
	return belief.strings.map((_, index) => {
		if (!plan.todo.has(index)) return undefined;
		const now = Float64Array.from(x);
		now[belief.layout.pull(index)] = end[belief.layout.pull(index)]!;
		return centsOf(belief, now)[index];
	});
}

/**
 * Where every string ends up, cents, if one is set to `aimCents` now and all
 * others that are to be turned are brought to their end places afterwards.
 */
export function landingOf(
	belief: Belief,
	x: ArrayLike<number>,
	plan: Todo,
	set: {readonly index: number; readonly aimCents: number},
): (number | undefined)[] {
	const now = holdCents(belief, x, only(belief, set.index, set.aimCents));
	return centsOf(belief, holdCents(belief, now.x, endPlaces(plan, set.index)).x);
}
