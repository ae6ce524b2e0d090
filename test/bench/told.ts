import {atRest, type Belief, withRival} from '../../source/estimation/belief.ts';
import type {Guitar} from '../../source/practice/guitar.ts';

/** What a run may be told of the hidden truth, to see what not knowing it costs. */
export interface Told {
	/** Mass per length of every string. */
	readonly masses?: boolean;
	/** Stiffness of every string, and the length behind the nut that shares its stretch. */
	readonly stretch?: boolean;
}

/** A first belief with some of the truth written in. What the model leaves out is still left out. */
export function toldTruth(belief: Belief, guitar: Guitar, {masses, stretch}: Told): Belief {
	const {rival, ...plain} = belief;
	const {layout, model} = plain;
	const mean = Float64Array.from(plain.mean);
	const covariance = plain.covariance.clone();
	const tell = (at: number, value: number, sd: number) => {
		mean[at] = value;
		covariance.set(at, at, sd * sd);
	};
	for (const [index, {wire, seat}] of guitar.strings.entries()) {
		const nominal = model.strings[index]!;
		if (masses) tell(layout.mass(index), Math.log(wire.massKgPerM / nominal.massPerLengthKgPerM), 0.002);
		if (!stretch) continue;
		tell(layout.stiffness(index), Math.log(wire.stretchStiffnessN / nominal.axialStiffnessN), 0.004);
		tell(layout.behind(index), seat.behindPathM / nominal.behindNutM - 1, 0.02);
	}
	const floating = atRest({...plain, mean, covariance});
	return rival ? withRival(floating) : floating;
}
