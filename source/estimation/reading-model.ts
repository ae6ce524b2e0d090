import {
	type Bridge,
	centsPerLogTension,
	momentAndSlope,
	restAngleRad,
	stiffnessAt,
	tensionAt,
	travelAt,
} from '../physics/bridge.ts';
import {type Belief, bridgeOf, levelRad, nominalMomentNm, wireFor} from './belief.ts';

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
		return {value: angle, gradient: belief.isFromStop ? gradient : level.gradient, bridge};
	}

	const sin = Math.sin(angle);
	const cos = Math.cos(angle);
	let byArm = 2 * bridge.springRateNmPerRad * angle - bridge.springMomentNm;
	let bySetback = 0;
	for (let index = 0; index < belief.strings.length; index++) {
		const travel = travelAt(bridge, index, angle);
		const tension = tensionAt(bridge, index, travel);
		if (tension === 0) continue;
		const armM = bridge.armM[index]!;
		const lever = armM * cos - bridge.setbackM * sin;
		const stiffness = stiffnessAt(bridge, index, travel);
		const byStretch = lever * stiffness * (1 + tension / bridge.axialStiffnessN[index]!);
		const stretch = stretchSlopes(belief, x, index);
		gradient[layout.pull(index)] = (-byStretch * stretch.byPull) / slope;
		gradient[layout.stiffness(index)] = -(lever * tension + byStretch * stretch.byStiffness) / slope;
		gradient[layout.mass(index)] = (-byStretch * stretch.byMass) / slope;
		byArm += stiffness * armM * sin * lever + tension * armM * cos;
		bySetback -= stiffness * (1 - cos) * lever + tension * sin;
	}

	gradient[layout.rate] = (-bridge.springRateNmPerRad * angle) / slope;
	const momentPerBalance = nominalMomentNm(belief.model) * Math.exp(x[layout.arm]!);
	gradient[layout.balance] = momentPerBalance / slope;
	gradient[layout.friction] = x[layout.friction]! > 0 ? (belief.lean * momentPerBalance) / slope : 0;
	gradient[layout.arm] = -byArm / slope;
	gradient[layout.setback] = -bySetback / slope;
	return {value: angle, gradient, bridge};
}

/** Angle of the truly level plate with gradient; see `levelRad`. */
export function linearisedLevel(belief: Belief, x: Float64Array): Linearised {
	const {layout} = belief;
	const value = levelRad(belief, x);
	const gradient = new Float64Array(layout.size);
	if (belief.isFromStop) {
		gradient[layout.stop] = -1;
		return {value, gradient};
	}

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
	const perStrain = strain > 0 ? wire.speakingLengthM / (1 + strain) ** 2 : wire.speakingLengthM;
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
	const {bridge} = angle;
	const travel = travelAt(bridge, index, angle.value);
	const tension = tensionAt(bridge, index, travel);
	if (tension <= 0) return undefined;
	const axial = bridge.axialStiffnessN[index]!;
	const lengthM = bridge.speakingLengthM[index]! + travel;
	const waveSpeed = Math.sqrt((tension * (1 + tension / axial)) / bridge.massPerLengthKgPerM[index]!);
	const value = 1200 * Math.log2(waveSpeed / (2 * lengthM) / model.strings[index]!.targetHz);

	const sin = Math.sin(angle.value);
	const stiffness = stiffnessAt(bridge, index, travel);
	// f² goes with T (1 + T/EA), and the second factor is the stretched length over the wire's.
	const perTension = centsPerLogTension * (1 / tension + 1 / (axial + tension));
	const perTravel = stiffness * perTension - (2 * centsPerLogTension) / lengthM;
	const perStretch = stiffness * (1 + tension / axial) * perTension;
	const perAngle = perTravel * (bridge.armM[index]! * Math.cos(angle.value) - bridge.setbackM * sin);
	const stretch = stretchSlopes(belief, x, index);
	const gradient = angle.gradient.map(part => part * perAngle);
	gradient[layout.pull(index)]! += perStretch * stretch.byPull;
	gradient[layout.stiffness(index)]! += centsPerLogTension + perStretch * stretch.byStiffness;
	gradient[layout.mass(index)]! += perStretch * stretch.byMass - centsPerLogTension;
	gradient[layout.arm]! += perTravel * bridge.armM[index]! * sin;
	gradient[layout.setback]! -= perTravel * (1 - Math.cos(angle.value));
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
