import {Matrix} from 'ml-matrix';
import {type Bridge, restAngleRad} from '../physics/bridge.ts';
import {stretchForFrequency, tensionAt} from '../physics/elastic-string.ts';
import {travelAt} from '../physics/lever.ts';
import type {InstrumentModel, ModelString} from './instrument-model.ts';
import {type Layout, layoutOf} from './layout.ts';
import {nominal, priorSd} from './priors.ts';

/**
 * Mean and covariance of everything unknown about one instrument, and what
 * state its parts are in. A value: learning makes a new one.
 */
export interface Belief {
	readonly model: InstrumentModel;
	readonly layout: Layout;
	/** See layout.ts. */
	readonly mean: Float64Array;
	/** size × size, order as in layout.ts. */
	readonly covariance: Matrix;
	readonly nut: 'open' | 'locked';
	readonly blocked: boolean;
	readonly strings: readonly StringStatus[];
}

export interface StringStatus {
	readonly on: 'sounding' | 'slack' | 'off';
	/** False until the first reading. */
	readonly everRead: boolean;
	/** Turned and not read since: its place is anybody's guess. */
	readonly turnedUnread: boolean;
	/** 1 = just fitted, 0 = settled. */
	readonly newness: number;
	/** Saddle moved since the nominal length was taken, metres (positive = longer). */
	readonly saddleTravelM: number;
}

/** What an earlier set-up taught: the belief's slow part, by the same layout. */
export interface Learned {
	readonly strings: number;
	readonly mean: readonly number[];
	readonly covariance: readonly (readonly number[])[];
}

/** Tension in newtons of a string at its target with the plate level, by nominal values. */
export function nominalTargetTensionN(string: ModelString): number {
	return tensionAtTarget(string, string.speakingLengthM, string.massPerLengthKgPerM, string.axialStiffnessN);
}

function tensionAtTarget(string: ModelString, lengthM: number, massPerLength: number, axialStiffnessN: number): number {
	const load = (4 * massPerLength * (lengthM * string.targetHz) ** 2) / axialStiffnessN;
	return (axialStiffnessN * (Math.sqrt(1 + 4 * load) - 1)) / 2;
}

/** Belief before any reading: strings near pitch, plate near level, both very uncertain. */
export function priorBelief(
	model: InstrumentModel,
	condition: {readonly nut: 'open' | 'locked'; readonly newness: number},
	learned?: Learned,
): Belief {
	const n = model.strings.length;
	const layout = layoutOf(n);
	const mean = new Float64Array(layout.size);
	const covariance = Matrix.zeros(layout.size, layout.size);
	const spread = (at: number, sd: number) => covariance.set(at, at, sd * sd);
	mean[layout.stop] = nominal.backStopRad;
	const belief: Belief = {
		model,
		layout,
		mean,
		covariance,
		nut: condition.nut,
		blocked: false,
		strings: model.strings.map(() => ({
			on: 'sounding',
			everRead: false,
			turnedUnread: false,
			newness: condition.newness,
			saddleTravelM: 0,
		})),
	};
	for (const [index, string] of model.strings.entries()) {
		const atPitchMm = stretchForFrequency(elasticOf(belief, mean, index), string.targetHz, 0) * 1000;
		mean[layout.stretch(index)] = atPitchMm;
		spread(layout.stretch(index), 0.5 * atPitchMm);
		spread(layout.stiffness(index), string.wound ? priorSd.stiffnessWound : priorSd.stiffnessPlain);
		spread(layout.mass(index), string.wound ? priorSd.massWound : priorSd.massPlain);
	}

	spread(layout.rate, priorSd.rate);
	spread(layout.balance, priorSd.balance);
	spread(layout.friction, priorSd.friction);
	spread(layout.arm, priorSd.arm);
	spread(layout.springArm, priorSd.springArm);
	spread(layout.stop, priorSd.stop);
	spread(layout.support, 0.05);
	return learned && learned.strings === n ? withLearned(belief, learned) : belief;
}

/** The entries that outlast a set-up: what the instrument is, not where its strings happen to stand. */
function lastingEntries(layout: Layout): number[] {
	const perString = Array.from({length: layout.strings}, (_, index) => [layout.stiffness(index), layout.mass(index)]);
	return [...perString.flat(), layout.rate, layout.balance, layout.arm, layout.springArm, layout.stop];
}

/** What a belief has to say to the instrument's next set-up. */
export function learnedFrom(belief: Belief): Learned {
	const entries = lastingEntries(belief.layout);
	return {
		strings: belief.layout.strings,
		mean: entries.map(at => belief.mean[at]!),
		covariance: entries.map(row => entries.map(column => belief.covariance.get(row, column))),
	};
}

function withLearned(belief: Belief, learned: Learned): Belief {
	const {layout} = belief;
	const entries = lastingEntries(layout);
	const mean = Float64Array.from(belief.mean);
	const covariance = belief.covariance.clone();
	for (const [row, at] of entries.entries()) {
		mean[at] = learned.mean[row]!;
		for (const [column, other] of entries.entries()) {
			covariance.set(at, other, learned.covariance[row]![column]! + (at === other ? sinceThenSd(layout, at) ** 2 : 0));
		}
	}

	// A string at its prior place is at pitch for the stiffness and mass learned.
	for (const [index, string] of belief.model.strings.entries()) {
		mean[layout.stretch(index)] = stretchForFrequency(elasticOf(belief, mean, index), string.targetHz, 0) * 1000;
	}

	return {...belief, mean, covariance};
}

/** What may have changed since the last set-up: a little of everything. */
function sinceThenSd(layout: Layout, at: number): number {
	if (at === layout.balance) return 0.02;
	if (at === layout.rate || at === layout.arm || at === layout.springArm || at === layout.stop) return 0.01;
	return 0.015;
}

/** String `index` of a guess `x` at the unknowns, without its stretch. */
export function elasticOf(belief: Belief, x: ArrayLike<number>, index: number) {
	const {model, layout} = belief;
	const string = model.strings[index]!;
	const speakingLengthM = string.speakingLengthM + belief.strings[index]!.saddleTravelM;
	return {
		axialStiffnessN: string.axialStiffnessN * Math.exp(x[layout.stiffness(index)]!),
		massPerLengthKgPerM: string.massPerLengthKgPerM * Math.exp(x[layout.mass(index)]!),
		speakingLengthM,
		sharedLengthM: belief.nut === 'open' ? speakingLengthM + string.behindNutM : speakingLengthM,
	};
}

/** Spring moment at level if the strings at nominal pitch balance it, N m, with the nominal arm. */
export function nominalMomentNm(model: InstrumentModel): number {
	let pullN = 0;
	for (const string of model.strings) pullN += nominalTargetTensionN(string);
	return pullN * nominal.armM;
}

/** The physics of one guess `x` at the unknowns. */
export function bridgeOf(belief: Belief, x: ArrayLike<number>): Bridge {
	const {layout, model} = belief;
	const armScale = Math.exp(x[layout.arm]!);
	const armM = nominal.armM * armScale;
	const nominalRate = model.springs * nominal.springRateNPerM * nominal.springArmM ** 2;
	return {
		strings: model.strings.map((_, index) => ({
			...elasticOf(belief, x, index),
			stretchM: belief.strings[index]!.on === 'off' ? -1 : x[layout.stretch(index)]! / 1000,
			armM,
			setbackM: nominal.setbackM,
		})),
		springRateNmPerRad: nominalRate * Math.exp(x[layout.rate]!) * armScale ** 2,
		springMomentAtLevelNm: nominalMomentNm(model) * armScale * (1 + x[layout.balance]! + x[layout.friction]!),
		backStopRad: Math.max(0.02, x[layout.stop]!),
		frontStopRad: nominal.frontStopRad,
		...(belief.blocked ? {blockedAtRad: x[layout.support]!} : {}),
	};
}

/** Where the plate rests for a guess `x`, radians (positive = string side back, tail low). */
export function angleFor(belief: Belief, x: ArrayLike<number>): number {
	return restAngleRad(bridgeOf(belief, x));
}

/** Tension in newtons of string `index` for the belief's mean. */
export function meanTensionN(belief: Belief, index: number): number {
	const bridge = bridgeOf(belief, belief.mean);
	const string = bridge.strings[index]!;
	return tensionAt(string, travelAt(string, restAngleRad(bridge)));
}
