import {holding} from '../physics/bridge-holding.ts';
import {type Belief, bridgeOf} from './belief.ts';

/**
 * A guess at the unknowns after some strings were turned until they sound
 * given cents of their targets: only their stretches differ from `x`.
 *
 * @param holdCents One entry a string, cents; `undefined` leaves it alone.
 */
export function holdCents(
	belief: Belief,
	x: ArrayLike<number>,
	holdCents: readonly (number | undefined)[],
): {readonly x: Float64Array; readonly angleRad: number} {
	const {model, layout} = belief;
	const {angleRad, stretchM} = holding(
		bridgeOf(belief, x),
		holdCents.map((cents, index) =>
			cents === undefined ? undefined : model.strings[index]!.targetHz * 2 ** (cents / 1200),
		),
	);
	const result = Float64Array.from(x);
	for (const [index, cents] of holdCents.entries()) {
		if (cents !== undefined) result[layout.stretch(index)] = stretchM[index]! * 1000;
	}

	return {x: result, angleRad};
}
