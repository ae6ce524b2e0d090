import {momentAndSlope, restAngleRad} from '../physics/bridge.ts';
import {centsPerLogTension, stiffnessAt, tensionAt} from '../physics/elastic-string.ts';
import {travelAt, travelSlopeAt} from '../physics/lever.ts';
import {type Belief, bridgeOf} from './belief.ts';

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
export function linearisedAngle(belief: Belief, x: Float64Array): Linearised & {bridge: ReturnType<typeof bridgeOf>} {
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
		gradient[layout.stop] = 1;
		return {value: angle, gradient, bridge};
	}

	let byArm = 2 * bridge.springRateNmPerRad * angle - bridge.springMomentAtLevelNm;
	for (const [index, string] of bridge.strings.entries()) {
		const travel = travelAt(string, angle);
		const tension = tensionAt(string, travel);
		if (tension === 0) continue;
		const arm = travelSlopeAt(string, angle);
		const stiffness = stiffnessAt(string, travel);
		const strain = tension / string.axialStiffnessN;
		gradient[layout.stretch(index)] = (-arm * stiffness * (1 + strain)) / slope / 1000;
		gradient[layout.stiffness(index)] = (-arm * tension) / slope;
		byArm += stiffness * string.armM * Math.sin(angle) * arm + tension * string.armM * Math.cos(angle);
	}

	gradient[layout.rate] = (-bridge.springRateNmPerRad * angle) / slope;
	const momentPerBalance = bridge.springMomentAtLevelNm / Math.max(1e-6, 1 + x[layout.balance]! + x[layout.friction]!);
	gradient[layout.balance] = momentPerBalance / slope;
	gradient[layout.friction] = momentPerBalance / slope;
	gradient[layout.arm] = -byArm / slope;
	return {value: angle, gradient, bridge};
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
	const perAngle = perTravel * travelSlopeAt(string, angle.value);
	const gradient = angle.gradient.map(part => part * perAngle);
	gradient[layout.stretch(index)]! += (centsPerLogTension * ((stiffness * (1 + strain)) / tension + 1 / freeM)) / 1000;
	gradient[layout.stiffness(index)]! += centsPerLogTension;
	gradient[layout.mass(index)]! -= centsPerLogTension;
	gradient[layout.arm]! += perTravel * string.armM * Math.sin(angle.value);
	return {value, gradient};
}

/** Height of the tail edge above level for a guess `x`, metres, with gradient. */
export function linearisedTail(belief: Belief, x: Float64Array): Linearised {
	const {value, gradient} = linearisedAngle(belief, x);
	const arm = belief.model.tailArmM;
	return {value: -arm * Math.sin(value), gradient: gradient.map(part => -arm * Math.cos(value) * part)};
}
