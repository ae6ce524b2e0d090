import {type Belief, levelRad} from '../estimation/belief.ts';
import {holdCents} from '../estimation/hold.ts';
import {nominal} from '../estimation/priors.ts';
import {allAtPitch, centsOf, endPlaces} from './landing.ts';

/** How far the arm takes one string from its pitch to where the plate stops, cents. */
export interface ArmRange {
	/** Positive: the tail edge (or the block) meets the body. 0 when the plate rests on the stop. */
	readonly pullUpCents: number;
	/** Negative; undefined when the string hangs loose before the plate stops. */
	readonly diveCents: number | undefined;
}

/**
 * Pull-up and dive of every string, from rest with all at pitch and the plate
 * standing as wished, by the believed mean. The stops are counted from level,
 * so a tail wished higher has more way up.
 *
 * @param wishTailM Tail height wanted at pitch, metres, positive = tail high.
 * @returns By string; undefined for those off.
 */
export function armRanges(belief: Belief, wishTailM: number): readonly (ArmRange | undefined)[] {
	const {layout, mean: x, model} = belief;
	const on = belief.strings.flatMap((status, index) => (status.on === 'off' ? [] : [index]));
	const level = levelRad(belief, x);
	const restRad = level - Math.asin(Math.max(-0.5, Math.min(0.5, wishTailM / model.tailArmM)));
	const held: Belief = {...belief, blocked: true};
	const at = (from: ArrayLike<number>, angleRad: number) => {
		const y = Float64Array.from(from);
		y[layout.support] = angleRad;
		return y;
	};
	const atPitch = holdCents(held, at(x, restRad), endPlaces(allAtPitch(belief, new Set(on)))).x;
	const backRad = Math.max(restRad, level + Math.max(0.02, x[layout.stop]!));
	const up = centsOf(held, at(atPitch, backRad));
	const down = centsOf(held, at(atPitch, Math.min(restRad, level + nominal.frontStopRad)));
	return belief.strings.map(({on: how}, index) =>
		how === 'off' ? undefined : {pullUpCents: Math.max(0, up[index] ?? 0), diveCents: down[index]},
	);
}
