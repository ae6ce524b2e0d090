import {type Bridge, momentAndSlope, restAngleRad} from '../physics/bridge.ts';
import {centsPerLogTension, stiffnessAt, tensionAt} from '../physics/elastic-string.ts';
import {travelAt, travelSlopeAt} from '../physics/lever.ts';
import {type Belief, bridgeOf, levelRad, wireFor} from './belief.ts';

/** A predicted quantity and how it answers to every unknown. */
export interface Linearised {
	readonly value: number;
	/** Derivatives by the order of layout.ts. */
	readonly gradient: Float64Array;
}

/**
 * Angle of the plate for a guess `x` and its gradient, by the implicit
 * function theorem: dθ/dx = −(∂F/∂x) / (∂F/∂θ) with F the moment balance.
 * Resting on the stop or on a support it follows that alone.
 */
export function linearisedAngle(belief: Belief, x: Float64Array): Linearised & {readonly bridge: Bridge} {
	const {layout} = belief;
	const bridge = bridgeOf(belief, x);
	const angle = restAngleRad(bridge);
	const gradient = new Float64Array(layout.size);
	if (belief.blocked) {
		gradient[layout.support] = 1;
		return {value: angle, gradient, bridge};
	}

	const [moment, slope] = momentAndSlope(bridge, angle);
	if (angle >= bridge.backStopRad && moment < 0) {
		const level = linearisedLevel(belief, x);
		level.gradient[layout.stop]! += 1;
		return {value: angle, gradient: level.gradient, bridge};
	}

	let byArm = 2 * bridge.springRateNmPerRad * angle - bridge.springMomentAtLevelNm;
	for (const [index, string] of bridge.strings.entries()) {
		const travel = travelAt(string, angle);
		const tension = tensionAt(string, travel);
		if (tension === 0) continue;
		const arm = travelSlopeAt(string, angle);
		const stiffness = stiffnessAt(string, travel);
		const byStretch = arm * stiffness * (1 + tension / string.axialStiffnessN);
		const stretch = stretchSlopes(belief, x, index);
		gradient[layout.pull(index)] = (-byStretch * stretch.byPull) / slope;
		gradient[layout.stiffness(index)] = -(arm * tension + byStretch * stretch.byStiffness) / slope;
		gradient[layout.mass(index)] = (-byStretch * stretch.byMass) / slope;
		byArm += stiffness * string.armM * Math.sin(angle) * arm + tension * string.armM * Math.cos(angle);
	}

	gradient[layout.rate] = (-bridge.springRateNmPerRad * angle) / slope;
	const momentPerBalance = bridge.springMomentAtLevelNm / Math.max(1e-6, 1 + x[layout.balance]! + x[layout.friction]!);
	gradient[layout.balance] = momentPerBalance / slope;
	gradient[layout.friction] = momentPerBalance / slope;
	gradient[layout.arm] = -byArm / slope;
	return {value: angle, gradient, bridge};
}

/** Angle of the truly level plate with gradient; see `levelRad`. */
function linearisedLevel(belief: Belief, x: Float64Array): Linearised {
	const {layout} = belief;
	const value = levelRad(belief, x);
	const gradient = new Float64Array(layout.size);
	const perBalance = levelRad(belief, unitBalance(belief, x));
	gradient[layout.balance] = perBalance;
	gradient[layout.home] = -perBalance;
	gradient[layout.rate] = -value;
	gradient[layout.arm] = -value;
	return {value, gradient};
}

function unitBalance({layout}: Belief, x: Float64Array): Float64Array {
	const y = Float64Array.from(x);
	y[layout.balance] = 1;
	y[layout.home] = 0;
	return y;
}

/** How a string's stretch, metres, answers to its pull, stiffness and mass. */
function stretchSlopes(belief: Belief, x: Float64Array, index: number) {
	const wire = wireFor(belief, x, index);
	const pull = x[belief.layout.pull(index)]!;
	const strain = pull * wire.targetStrain;
	const perStrain = strain > 0 ? wire.sharedLengthM / (1 + strain) ** 2 : wire.sharedLengthM;
	// From ε (1 + ε) = 4 μ L² f² / E A:  d ln ε = (d ln μ − d ln EA) (1 + ε) / (1 + 2ε)
	const share = (1 + wire.targetStrain) / (1 + 2 * wire.targetStrain);
	return {
		byPull: perStrain * wire.targetStrain,
		byStiffness: -perStrain * strain * share,
		byMass: perStrain * strain * share,
	};
}

/**
 * Open pitch of string `index` for a guess `x`, cents of its target, with
 * gradient; `undefined` when the guess has it slack.
 */
export function linearisedCents(belief: Belief, x: Float64Array, index: number): Linearised | undefined {
	const {layout, model} = belief;
	const angle = linearisedAngle(belief, x);
	const string = angle.bridge.strings[index]!;
	const travel = travelAt(string, angle.value);
	const tension = tensionAt(string, travel);
	if (tension <= 0) return undefined;
	const freeM = string.sharedLengthM - string.stretchM;
	const strain = tension / string.axialStiffnessN;
	const lengthM = string.speakingLengthM + travel;
	const massPerLength = (string.massPerLengthKgPerM * freeM) / (string.sharedLengthM + travel);
	const frequencyHz = Math.sqrt(tension / massPerLength) / (2 * lengthM);
	const value = 1200 * Math.log2(frequencyHz / model.strings[index]!.targetHz);

	const stiffness = string.axialStiffnessN / freeM;
	const perTravel = centsPerLogTension * (stiffness / tension + 1 / (string.sharedLengthM + travel) - 2 / lengthM);
	const perStretch = centsPerLogTension * ((stiffness * (1 + strain)) / tension + 1 / freeM);
	const perAngle = perTravel * travelSlopeAt(string, angle.value);
	const stretch = stretchSlopes(belief, x, index);
	const gradient = angle.gradient.map(part => part * perAngle);
	gradient[layout.pull(index)]! += perStretch * stretch.byPull;
	gradient[layout.stiffness(index)]! += centsPerLogTension + perStretch * stretch.byStiffness;
	gradient[layout.mass(index)]! += perStretch * stretch.byMass - centsPerLogTension;
	gradient[layout.arm]! += perTravel * string.armM * Math.sin(angle.value);
	return {value, gradient};
}

/** Height of the tail edge above level for a guess `x`, metres, with gradient. */
export function linearisedTail(belief: Belief, x: Float64Array): Linearised {
	const angle = linearisedAngle(belief, x);
	const level = linearisedLevel(belief, x);
	const arm = belief.model.tailArmM;
	const tilt = angle.value - level.value;
	return {
		value: -arm * Math.sin(tilt),
		gradient: angle.gradient.map((part, at) => -arm * Math.cos(tilt) * (part - level.gradient[at]!)),
	};
}
