import {isBareUnseen, takenApart} from '../../source/estimation/accounts.ts';
import {
	atRest,
	type Belief,
	nominalArmM,
	nominalMomentNm,
	nominalRateNmPerRad,
	withRival,
} from '../../source/estimation/belief.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {rigOf, torqueNm} from '../../source/practice/rig.ts';

/** What a run may be told of the hidden truth, to see what not knowing it costs. */
export interface Told {
	/** What every string weighs at the bridge: its mass per length and the lever arm it has there. */
	readonly weights?: boolean;
	/** Stiffness of every string, and the length behind the nut that shares its stretch. */
	readonly stretch?: boolean;
	/** The springs as the strings feel them: rate, and pull with the plate level. */
	readonly springs?: boolean;
}

/** How exactly things are told, ln or shares. */
const toldSd = 0.003;

/**
 * A first belief with some of the truth written in. The belief has one arm
 * for all strings; what one string's arm is more than the others' works like
 * more mass and twice as much stiffness. What the model leaves out is still left out.
 */
export function toldTruth(belief: Belief, guitar: Guitar, {weights, stretch, springs}: Told): Belief {
	const {rival, others: _, ...plain} = belief;
	const {layout, model} = plain;
	const mean = Float64Array.from(plain.mean);
	const covariance = plain.covariance.clone();
	const tell = (at: number, value: number, sd = toldSd) => {
		mean[at] = value;
		covariance.set(at, at, sd * sd);
	};
	// The belief counts angles from how the plate came in; with no string on, from level.
	const fromRad = plain.strings.every(({on}) => on !== 'sounding') ? 0 : guitar.angleRad;
	const places = guitar.strings.map(({saddleM, seat: {heightM}}) => {
		const behindM = guitar.body.scaleLineM + saddleM;
		return {
			upM: heightM * Math.cos(fromRad) - behindM * Math.sin(fromRad),
			behindM: behindM * Math.cos(fromRad) + heightM * Math.sin(fromRad),
		};
	});
	const armLogs = places.map(({upM}, index) => Math.log(upM / nominalArmM(model, index)));
	const armLog = armLogs.reduce((sum, each) => sum + each, 0) / armLogs.length;
	for (const [index, {wire, seat}] of guitar.strings.entries()) {
		const nominal = model.strings[index]!;
		const lever = armLogs[index]! - armLog;
		if (weights) tell(layout.mass(index), Math.log(wire.massKgPerM / nominal.massPerLengthKgPerM) + lever);
		if (!stretch) continue;
		tell(layout.stiffness(index), Math.log(wire.stretchStiffnessN / nominal.axialStiffnessN) + 2 * lever);
		tell(layout.behind(index), seat.behindPathM / nominal.behindNutM - 1, 0.02);
	}

	if (weights) {
		tell(layout.arm, armLog);
		tell(layout.setback, places.reduce((sum, {behindM}) => sum + behindM, 0) / places.length, 1e-5);
	}

	if (springs) {
		const alone = {...rigOf(guitar), lines: []};
		const stepRad = 1e-4;
		const rateNmPerRad = (torqueNm(alone, fromRad - stepRad) - torqueNm(alone, fromRad + stepRad)) / (2 * stepRad);
		tell(layout.rate, Math.log(rateNmPerRad / nominalRateNmPerRad(model)) - 2 * armLog);
		tell(layout.home, torqueNm(alone, 0) / (nominalMomentNm(model) * Math.exp(armLog)) - 1);
	}

	const floating = atRest({...plain, mean, covariance});
	if (rival) return withRival(floating);
	return isBareUnseen(floating) ? takenApart(floating) : floating;
}
