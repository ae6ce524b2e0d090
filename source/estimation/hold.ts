import {holding} from '../physics/bridge-holding.ts';
import {type Belief, bridgeOf, pullOfStretch, wireFor} from './belief.ts';

/**
 * A guess at the unknowns after some strings were turned until they sound
 * given cents of their targets: only their pulls differ from `x`.
 *
 * @param cents One entry a string; `undefined` leaves it alone.
 */
export function holdCents(
	belief: Belief,
	x: ArrayLike<number>,
	cents: readonly (number | undefined)[],
): {readonly x: Float64Array; readonly angleRad: number} {
	const {model, layout} = belief;
	const {angleRad, stretchM} = holding(
		bridgeOf(belief, x),
		cents.map((each, index) => (each === undefined ? undefined : model.strings[index]!.targetHz * 2 ** (each / 1200))),
	);
	const result = Float64Array.from(x);
	for (const [index, each] of cents.entries()) {
		if (each === undefined) continue;
		result[layout.pull(index)] = pullOfStretch(wireFor(belief, x, index), stretchM[index]!);
	}

	return {x: result, angleRad};
}

/** For `holdCents`: one string at these cents, the others left alone. */
export function only(belief: Belief, index: number, cents: number): (number | undefined)[] {
	return belief.strings.map((_, at) => (at === index ? cents : undefined));
}
