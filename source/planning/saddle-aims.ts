import type {Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {held, poseOf} from '../estimation/hold.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {allAtPitch, centsOf, endPlaces} from './landing.ts';

/**
 * Where strings must stand while a support holds the bridge so that they stand
 * at pitch once it is out: the moved saddles ask for other tensions than
 * before, and the plate will come to rest a little elsewhere.
 *
 * @param belief With the support in.
 * @param strings Indices of the strings to be brought up; the rest stay as they are.
 * @returns Cents by string; `undefined` for strings that are not to be brought up.
 */
export function aimsUnderSupport(belief: Belief, strings: ReadonlySet<number>): readonly (Estimate | undefined)[] {
	const floating: Belief = {...belief, blocked: false};
	const {pull} = belief.layout;
	const ends = endPlaces(allAtPitch(belief, strings));
	return propagated(belief, x => {
		// From where the support holds the plate: it has not tipped with the slack strings, nor dragged the others over the nut.
		const end = held(floating, poseOf(belief, x), ends).x;
		const now = Float64Array.from(x);
		for (const index of strings) now[pull(index)] = end[pull(index)]!;
		const cents = centsOf(belief, now);
		return belief.strings.map((_, index) => (strings.has(index) ? cents[index] : undefined));
	}).estimates;
}
