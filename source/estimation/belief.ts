import {Matrix} from 'ml-matrix';
import {type Bridge, restAngleRad} from '../physics/bridge.ts';
import {type Account, takenApart} from './accounts.ts';
import {type Hands, usualHands} from './hands.ts';
import type {InstrumentModel, ModelString} from './instrument-model.ts';
import {type Layout, layoutOf} from './layout.ts';
import {measured, replaced} from './gaussian.ts';
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
	/** What friction at the knife edge holds now, as a share of the most it can: −1 to 1, positive = the plate came down from the tail side. */
	readonly lean: number;
	readonly strings: readonly StringStatus[];
	/** Learned beside the rest: tuner and hand. */
	readonly hands: Hands;
	/** Readings lately that nothing believed explains; an old one counts less. */
	readonly surprises: number;
	/** The plate lay on its back stop when it came in: angles are counted from there. */
	readonly isFromStop: boolean;
	/** The other account of how it came in, while readings have not told the two apart. */
	readonly rival?: Rival | undefined;
	/** Less likely accounts of the same bridge, while readings have not told them apart; see accounts.ts. This one has the rest of the weight. */
	readonly others?: readonly Account[] | undefined;
}

export interface Rival {
	readonly belief: Belief;
	/** ln of how much likelier the readings so far make this than the rival. */
	readonly lead: number;
}

export interface StringStatus {
	readonly on: 'sounding' | 'slack' | 'off';
	/** False until the first reading. */
	readonly everRead: boolean;
	/** Turned and not read since: its place is anybody's guess. */
	readonly turnedUnread: boolean;
	/** 1 = just fitted, 0 = settled. */
	readonly newness: number;
	/** What the turn was to end at, cents, if an aim was followed. */
	readonly aimCents?: number | undefined;
	/** Turned, not read since, and something else has happened: its pull is forgotten. */
	readonly adrift: boolean;
	/** Share 0 to 1 of the wire's play at an open nut that is left before it slides in as the plate goes down; the rest is left the other way. */
	readonly play: number;
	/** Saddle moved since the nominal length was taken, metres (positive = longer). */
	readonly saddleTravelM: number;
}

/** Pull of a slack string: so far below zero that no tilt of the bridge tightens it. */
export const slackPull = -4;

/** How an instrument comes in, before anything is heard. */
export interface Condition {
	readonly nut: 'open' | 'locked';
	/** 1 = strings just fitted, 0 = settled. */
	readonly newness: number;
	/** No string tight yet: the plate lies on its stop. */
	readonly isBare?: boolean;
}

/** Belief before any reading: strings near pitch, plate at rest however it came in, all very uncertain. */
export function priorBelief(model: InstrumentModel, {nut, newness, isBare = false}: Condition): Belief {
	const n = model.strings.length;
	const layout = layoutOf(n);
	const mean = new Float64Array(layout.size);
	const covariance = Matrix.zeros(layout.size, layout.size);
	const spread = (at: number, sd: number) => covariance.set(at, at, sd * sd);
	for (const [index, string] of model.strings.entries()) {
		mean[layout.pull(index)] = isBare ? slackPull : 1;
		spread(layout.pull(index), isBare ? 0.1 : priorSd.pull);
		spread(layout.stiffness(index), string.wound ? priorSd.stiffnessWound : priorSd.stiffnessPlain);
		spread(layout.mass(index), string.wound ? priorSd.massWound : priorSd.massPlain);
		spread(layout.behind(index), priorSd.behind);
	}

	mean[layout.stop] = nominal.backStopRad;
	mean[layout.setback] = nominal.setbackM;
	mean[layout.friction] = nominal.friction;
	for (const name of ['rate', 'home', 'friction', 'arm', 'springArm', 'stop', 'setback'] as const)
		spread(layout[name], priorSd[name]);
	spread(layout.support, 0.05);
	const floating = atRest({
		model,
		layout,
		mean,
		covariance,
		nut,
		blocked: false,
		lean: 0,
		hands: usualHands,
		surprises: 0,
		isFromStop: false,
		strings: model.strings.map(() => ({
			on: isBare ? 'slack' : 'sounding',
			everRead: false,
			turnedUnread: false,
			adrift: false,
			play: 0.5,
			newness,
			saddleTravelM: 0,
		})),
	});
	return isBare ? takenApart(floating) : withRival(floating);
}

/** The same beside the account in which the plate came in lying on its back stop. */
export function withRival(floating: Belief): Belief {
	const {rival: _, ...plain} = floating;
	return {...plain, rival: {belief: fromStop(plain), lead: Math.log((1 - onStopShare) / onStopShare)}};
}

/** How often a plate comes in on its stop. Judgement. */
const onStopShare = 0.1;

/** Springs' moment beyond the strings' in a plate on its stop, shares of that at pitch: positive, so about this ± this. Judgement. */
const excess = {mean: 0.06, sd: 0.04} as const;

function fromStop(floating: Belief): Belief {
	const {layout} = floating;
	const belief = {...floating, isFromStop: true};
	const mean = Float64Array.from(belief.mean);
	mean[layout.balance]! += excess.mean;
	const covariance = belief.covariance.clone();
	covariance.set(layout.balance, layout.balance, covariance.get(layout.balance, layout.balance) + 0.1 ** 2);
	// What is assumed of the level plate: balance on the stop and the springs' rate must agree with it.
	const lift =
		(nominalRateNmPerRad(belief.model) / nominalMomentNm(belief.model)) *
		Math.exp(mean[layout.rate]! + mean[layout.arm]!);
	const gradient = new Float64Array(layout.size);
	gradient[layout.balance] = 1;
	gradient[layout.stop] = lift;
	gradient[layout.rate] = lift * mean[layout.stop]!;
	gradient[layout.arm] = lift * mean[layout.stop]!;
	gradient[layout.home] = -1;
	const innovation = -(mean[layout.balance]! + lift * mean[layout.stop]! - mean[layout.home]!);
	const home = measured({mean, covariance}, {gradient, innovation, variance: 0.03 ** 2});
	// That must not make the springs pull less than it takes to lie on the stop.
	const surplus = new Float64Array(layout.size);
	surplus[layout.balance] = 1;
	let expected = -1;
	for (const [index, string] of belief.model.strings.entries()) {
		const share = (nominalTargetTensionN(string) * nominalArmM(belief.model, index)) / nominalMomentNm(belief.model);
		surplus[layout.pull(index)] = -share;
		surplus[layout.mass(index)] = -share;
		expected += share * (home.mean[layout.pull(index)]! + home.mean[layout.mass(index)]!);
	}

	const short = excess.mean - (home.mean[layout.balance]! - expected);
	return {...belief, ...measured(home, {gradient: surplus, innovation: short, variance: excess.sd ** 2})};
}

/**
 * The plate came in at rest, so its springs held whatever the strings pulled:
 * `balance` follows from pulls and masses. With no string on, angles are
 * counted from level instead.
 */
export function atRest(belief: Belief): Belief {
	const {layout, model} = belief;
	const row = new Float64Array(layout.size);
	const mean = Float64Array.from(belief.mean);
	if (belief.strings.every(({on}) => on !== 'sounding')) {
		row[layout.home] = 1;
		mean[layout.balance] = mean[layout.home]!;
		return {...belief, mean, covariance: replaced(belief.covariance, layout.balance, row, 1e-10)};
	}

	const moments = model.strings.map((string, index) => nominalTargetTensionN(string) * nominalArmM(model, index));
	const total = nominalMomentNm(model);
	mean[layout.balance] = -1;
	for (const [index, moment] of moments.entries()) {
		const share = (moment / total) * Math.exp(mean[layout.mass(index)]!);
		mean[layout.balance]! += share * mean[layout.pull(index)]!;
		row[layout.pull(index)] = share;
		row[layout.mass(index)] = share * mean[layout.pull(index)]!;
	}

	return {
		...belief,
		mean,
		covariance: replaced(belief.covariance, layout.balance, row, priorSd.balance ** 2),
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
	const known = nominalMoments.get(model);
	if (known !== undefined) return known;
	let momentNm = 0;
	for (const [index, string] of model.strings.entries())
		momentNm += nominalTargetTensionN(string) * nominalArmM(model, index);
	nominalMoments.set(model, momentNm);
	return momentNm;
}

const nominalMoments = new WeakMap<InstrumentModel, number>();

/** Springs' rate about the knife edge, N m/rad, by nominal values. */
export function nominalRateNmPerRad(model: InstrumentModel): number {
	return model.springs * nominal.springRateNPerM * nominal.springArmM ** 2;
}

/** What the nut and the packet make of one string for a guess at the unknowns. */
export interface Wire {
	readonly axialStiffnessN: number;
	readonly massPerLengthKgPerM: number;
	readonly speakingLengthM: number;
	/** Strain at the target with the plate as it came in. */
	readonly targetStrain: number;
}

/** String `index` for a guess `x` at the unknowns. */
export function wireFor(belief: Belief, x: ArrayLike<number>, index: number): Wire {
	const {model, layout} = belief;
	const string = model.strings[index]!;
	const wire = {
		axialStiffnessN: string.axialStiffnessN * Math.exp(x[layout.stiffness(index)]!),
		massPerLengthKgPerM: string.massPerLengthKgPerM * Math.exp(x[layout.mass(index)]!),
		speakingLengthM: string.speakingLengthM + belief.strings[index]!.saddleTravelM,
		targetStrain: 0,
	};
	wire.targetStrain = strainAtTarget(wire, string.targetHz);
	return wire;
}

/** Unstretched wire, metres, between saddle and nut that gives a pull. Linear on into slackness. */
export function wireOfPullM({speakingLengthM, targetStrain}: Wire, pull: number): number {
	const strain = pull * targetStrain;
	return strain > 0 ? speakingLengthM / (1 + strain) : speakingLengthM * (1 - strain);
}

/** The pull that a length of wire gives; inverse of `wireOfPullM`. */
export function pullOfWire({speakingLengthM, targetStrain}: Wire, wireM: number): number {
	const strain = wireM < speakingLengthM ? speakingLengthM / wireM - 1 : 1 - wireM / speakingLengthM;
	return strain / targetStrain;
}

/** Angle of the truly level plate, counted from how it came in, radians. */
export function levelRad(belief: Belief, x: ArrayLike<number>): number {
	const {layout, model} = belief;
	if (belief.isFromStop) return -x[layout.stop]!;
	const away = x[layout.balance]! - x[layout.home]!;
	return (away * nominalMomentNm(model)) / (nominalRateNmPerRad(model) * Math.exp(x[layout.rate]! + x[layout.arm]!));
}

/** Height of a string's contact above the knife edge, nominal, metres: saddles follow the fingerboard's curve. */
export function nominalArmM(model: InstrumentModel, index: number): number {
	const acrossM = ((model.strings.length - 1) / 2 - index) * nominal.stringSpacingM;
	return nominal.armM - acrossM ** 2 / (2 * nominal.fingerboardRadiusM);
}

/** The physics of one guess `x` at the unknowns. Angles are counted from how the plate came in. */
export function bridgeOf(belief: Belief, x: ArrayLike<number>): Bridge {
	const {layout, model, strings} = belief;
	const armScale = Math.exp(x[layout.arm]!);
	const level = levelRad(belief, x);
	const bridge = {
		axialStiffnessN: [] as number[],
		massPerLengthKgPerM: [] as number[],
		speakingLengthM: [] as number[],
		wireM: [] as number[],
		armM: [] as number[],
		slidesBelowM: [] as number[],
		slidesAboveM: [] as number[],
		sharing: [] as number[],
		setbackM: x[layout.setback]!,
		springRateNmPerRad: nominalRateNmPerRad(model) * Math.exp(x[layout.rate]!) * armScale ** 2,
		springMomentNm: springMomentNm(belief, x, belief.lean),
		backStopRad: belief.isFromStop ? 0 : Math.max(0.02, x[layout.stop]!) + level,
		frontStopRad: nominal.frontStopRad + level,
		blockedAtRad: belief.blocked ? x[layout.support]! : undefined,
	};
	for (let index = 0; index < strings.length; index++) {
		const wire = wireFor(belief, x, index);
		bridge.axialStiffnessN.push(wire.axialStiffnessN);
		bridge.massPerLengthKgPerM.push(wire.massPerLengthKgPerM);
		bridge.speakingLengthM.push(wire.speakingLengthM);
		bridge.wireM.push(
			strings[index]!.on === 'off' ? 2 * wire.speakingLengthM : wireOfPullM(wire, x[layout.pull(index)]!),
		);
		bridge.armM.push(nominalArmM(model, index) * armScale);
		bridge.slidesBelowM.push(Number.NEGATIVE_INFINITY);
		bridge.slidesAboveM.push(Number.POSITIVE_INFINITY);
		bridge.sharing.push(1);
	}

	return bridge;
}

/** Moment of the springs at angle 0, and what friction at the knife edge adds when it holds a share `lean` of its most, N m. */
export function springMomentNm({layout, model}: Belief, x: ArrayLike<number>, lean: number): number {
	const held = lean * Math.max(0, x[layout.friction]!);
	return nominalMomentNm(model) * Math.exp(x[layout.arm]!) * (1 + x[layout.balance]! + held);
}

/** Where the plate rests for a guess `x`, radians from how it came in (positive = string side back, tail low). */
export function angleFor(belief: Belief, x: ArrayLike<number>): number {
	return restAngleRad(bridgeOf(belief, x));
}

/** Where the plate rests from level, radians. */
export function angleFromLevel(belief: Belief, x: ArrayLike<number>): number {
	return angleFor(belief, x) - levelRad(belief, x);
}
