import {Matrix} from 'ml-matrix';
import {type Bridge, restAngleRad} from '../physics/bridge.ts';
import type {ElasticString} from '../physics/elastic-string.ts';
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

/** Belief before any reading: strings near pitch, plate at rest however it came in, all very uncertain. */
export function priorBelief(
	model: InstrumentModel,
	condition: {readonly nut: 'open' | 'locked'; readonly newness: number},
): Belief {
	const n = model.strings.length;
	const layout = layoutOf(n);
	const mean = new Float64Array(layout.size);
	const covariance = Matrix.zeros(layout.size, layout.size);
	const spread = (at: number, sd: number) => covariance.set(at, at, sd * sd);
	const pulls = model.strings.map(nominalTargetTensionN);
	const totalN = pulls.reduce((sum, pull) => sum + pull, 0);
	let together = priorSd.balance ** 2;
	for (const [index, string] of model.strings.entries()) {
		const massSd = string.wound ? priorSd.massWound : priorSd.massPlain;
		mean[layout.pull(index)] = 1;
		spread(layout.pull(index), priorSd.pull);
		spread(layout.stiffness(index), string.wound ? priorSd.stiffnessWound : priorSd.stiffnessPlain);
		spread(layout.mass(index), massSd);
		// The plate came in at rest, so its springs held whatever the strings pulled.
		const share = pulls[index]! / totalN;
		for (const [at, sd] of [
			[layout.pull(index), priorSd.pull],
			[layout.mass(index), massSd],
		] as const) {
			covariance.set(layout.balance, at, share * sd ** 2);
			covariance.set(at, layout.balance, share * sd ** 2);
			together += (share * sd) ** 2;
		}
	}

	spread(layout.balance, Math.sqrt(together));
	mean[layout.stop] = nominal.backStopRad;
	for (const name of ['rate', 'home', 'friction', 'arm', 'springArm', 'stop'] as const)
		spread(layout[name], priorSd[name]);
	spread(layout.support, 0.05);
	return {
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
}

/** Strain at the target with the nominal plate: ε (1 + ε) = 4 μ L² f² / E A. */
export function strainAtTarget(
	wire: {readonly axialStiffnessN: number; readonly massPerLengthKgPerM: number; readonly speakingLengthM: number},
	targetHz: number,
): number {
	const load = (4 * wire.massPerLengthKgPerM * (wire.speakingLengthM * targetHz) ** 2) / wire.axialStiffnessN;
	return (Math.sqrt(1 + 4 * load) - 1) / 2;
}

/** Tension in newtons of a string at its target, by nominal values. */
export function nominalTargetTensionN(string: ModelString): number {
	return string.axialStiffnessN * strainAtTarget(string, string.targetHz);
}

/** Spring moment that balances all strings at pitch, N m, by nominal values. */
export function nominalMomentNm(model: InstrumentModel): number {
	let pullN = 0;
	for (const string of model.strings) pullN += nominalTargetTensionN(string);
	return pullN * nominal.armM;
}

/** Springs' rate about the knife edge, N m/rad, by nominal values. */
export function nominalRateNmPerRad(model: InstrumentModel): number {
	return model.springs * nominal.springRateNPerM * nominal.springArmM ** 2;
}

/** String `index` for a guess `x` at the unknowns, without its stretch, and its strain at pitch. */
export function wireFor(
	belief: Belief,
	x: ArrayLike<number>,
	index: number,
): Omit<ElasticString, 'stretchM'> & {readonly targetStrain: number} {
	const {model, layout} = belief;
	const string = model.strings[index]!;
	const speakingLengthM = string.speakingLengthM + belief.strings[index]!.saddleTravelM;
	const wire = {
		axialStiffnessN: string.axialStiffnessN * Math.exp(x[layout.stiffness(index)]!),
		massPerLengthKgPerM: string.massPerLengthKgPerM * Math.exp(x[layout.mass(index)]!),
		speakingLengthM,
		sharedLengthM: belief.nut === 'open' ? speakingLengthM + string.behindNutM : speakingLengthM,
	};
	return {...wire, targetStrain: strainAtTarget(wire, string.targetHz)};
}

/** Stretch in metres that gives a pull: strain = pull × strain at pitch. Linear on into slackness. */
export function stretchOfPull(
	wire: {readonly sharedLengthM: number; readonly targetStrain: number},
	pull: number,
): number {
	const strain = pull * wire.targetStrain;
	return strain > 0 ? (wire.sharedLengthM * strain) / (1 + strain) : wire.sharedLengthM * strain;
}

/** The pull that a stretch in metres gives; inverse of `stretchOfPull`. */
export function pullOfStretch(
	wire: {readonly sharedLengthM: number; readonly targetStrain: number},
	stretchM: number,
): number {
	const strain = stretchM > 0 ? stretchM / (wire.sharedLengthM - stretchM) : stretchM / wire.sharedLengthM;
	return strain / wire.targetStrain;
}

/** Angle of the truly level plate, counted from how it came in, radians. */
export function levelRad(belief: Belief, x: ArrayLike<number>): number {
	const {layout, model} = belief;
	const away = x[layout.balance]! - x[layout.home]!;
	return (away * nominalMomentNm(model)) / (nominalRateNmPerRad(model) * Math.exp(x[layout.rate]! + x[layout.arm]!));
}

/** The physics of one guess `x` at the unknowns. Angles are counted from how the plate came in. */
export function bridgeOf(belief: Belief, x: ArrayLike<number>): Bridge {
	const {layout, model} = belief;
	const armScale = Math.exp(x[layout.arm]!);
	const armM = nominal.armM * armScale;
	return {
		strings: model.strings.map((_, index) => {
			const wire = wireFor(belief, x, index);
			const isOff = belief.strings[index]!.on === 'off';
			return {
				...wire,
				stretchM: isOff ? -1 : stretchOfPull(wire, x[layout.pull(index)]!),
				armM,
				setbackM: nominal.setbackM,
			};
		}),
		springRateNmPerRad: nominalRateNmPerRad(model) * Math.exp(x[layout.rate]!) * armScale ** 2,
		springMomentAtLevelNm: nominalMomentNm(model) * armScale * (1 + x[layout.balance]! + x[layout.friction]!),
		backStopRad: Math.max(0.02, x[layout.stop]!) + levelRad(belief, x),
		frontStopRad: nominal.frontStopRad + levelRad(belief, x),
		...(belief.blocked ? {blockedAtRad: x[layout.support]!} : {}),
	};
}

/** Where the plate rests for a guess `x`, radians from how it came in (positive = string side back, tail low). */
export function angleFor(belief: Belief, x: ArrayLike<number>): number {
	return restAngleRad(bridgeOf(belief, x));
}

/** Where the plate rests from level, radians. */
export function angleFromLevel(belief: Belief, x: ArrayLike<number>): number {
	return angleFor(belief, x) - levelRad(belief, x);
}
