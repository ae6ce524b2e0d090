import type {Belief} from '../estimation/belief.ts';
import {angleFor, bridgeOf} from '../estimation/belief.ts';
import {holdCents} from '../estimation/hold.ts';
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

/** 0 for every string in the set, `undefined` for the rest: what `holdCents` takes. */
export function atPitch(belief: Belief, held: ReadonlySet<number>): (number | undefined)[] {
	return belief.strings.map((_, index) => (held.has(index) ? 0 : undefined));
}

/**
 * Where each string of `todo` must be set *now* so that it is at pitch when
 * all of `todo` are done: its peg goes straight to its last place, and the
 * others bring it home.
 *
 * @returns Cents by string; `undefined` for strings not in `todo`.
 */
export function aimsOf(belief: Belief, x: ArrayLike<number>, todo: ReadonlySet<number>): (number | undefined)[] {
	const end = holdCents(belief, x, atPitch(belief, todo)).x;
	return belief.strings.map((_, index) => {
		if (!todo.has(index)) return undefined;
		const now = Float64Array.from(x);
		now[belief.layout.pull(index)] = end[belief.layout.pull(index)]!;
		return centsOf(belief, now)[index];
	});
}

/**
 * Where a string ends up if it is set to `aimCents` now and all others of
 * `todo` are brought to pitch afterwards, cents; and where the untouched ones end up.
 */
export function landingOf(
	belief: Belief,
	x: ArrayLike<number>,
	todo: ReadonlySet<number>,
	set?: {readonly index: number; readonly aimCents: number},
): (number | undefined)[] {
	if (!set) return centsOf(belief, holdCents(belief, x, atPitch(belief, todo)).x);
	const now = holdCents(
		belief,
		x,
		belief.strings.map((_, index) => (index === set.index ? set.aimCents : undefined)),
	);
	const rest = new Set(todo);
	rest.delete(set.index);
	return centsOf(belief, holdCents(belief, now.x, atPitch(belief, rest)).x);
}
