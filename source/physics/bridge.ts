import {risingRoot} from '../numeric/rising-root.ts';
import {travelAt as leverTravelM} from './lever.ts';

/**
 * A floating bridge with its strings and springs: settings in, angle and
 * pitches out. Exact static equilibrium of
 *
 *     Σ Tᵢ(θ) · armᵢ(θ)  =  M₀ − K θ
 *     travelᵢ(θ) = hᵢ sin θ − x (1 − cos θ)
 *     Tᵢ = E A (L + effective travel − wire) / wire,   0 when slack
 *     f = √(T (1 + T / E A) / μ₀) / 2 (L + travel)     (mass is conserved)
 *
 * slack strings, a back stop and a support included. Own derivation. Where the
 * wire slides over the nut, the length behind it shares the stretch: beyond
 * `slidesBelowM` and `slidesAboveM` the effective travel grows by `sharing`
 * of the travel only. Left out: friction at the knife edge, weight of the
 * bridge, bending of posts and neck, stiffness of the wire (the same at the
 * target and near it, so it cancels in cents).
 *
 * One array a quantity, one entry a string, thinnest first: this is
 * evaluated some ten thousand times for one piece of advice.
 */
export interface Bridge {
	/** E times the area of the core, newtons, > 0. */
	readonly axialStiffnessN: number[];
	/** Of the unstretched wire, kg/m, > 0. */
	readonly massPerLengthKgPerM: number[];
	/** Saddle to nut with the plate at angle 0, metres, > 0. */
	readonly speakingLengthM: number[];
	/** Unstretched wire between saddle and nut, metres, > 0; longer than the speaking length when slack. */
	readonly wireM: number[];
	/** Height of the string contact above the knife edge, metres, > 0. */
	readonly armM: number[];
	/** Travels beyond which wire slides over the nut, metres; infinite at a locked nut. */
	readonly slidesBelowM: number[];
	readonly slidesAboveM: number[];
	/** Stiffness while sliding over stiffness while held, 0 to 1. */
	readonly sharing: number[];
	/** Distance of the contacts behind the knife edge, metres. */
	readonly setbackM: number;
	/** K, newton metres per radian, > 0: springs × rate × (arm of the springs)². */
	readonly springRateNmPerRad: number;
	/** M₀, moment of the springs at angle 0, newton metres. */
	springMomentNm: number;
	/** Largest angle (string side back) before block or plate meets the body, radians. */
	readonly backStopRad: number;
	/** Smallest angle (dived) the body allows, radians, negative. */
	readonly frontStopRad: number;
	/** Angle at which a support holds the plate; absent when it floats. */
	readonly blockedAtRad?: number | undefined;
}

/** Cents per unit of ln(tension): 600 / ln 2. */
export const centsPerLogTension = 600 / Math.LN2;

/** Travel of a contact along its string, metres. */
export function travelAt(bridge: Bridge, index: number, angleRad: number): number {
	return leverTravelM({armM: bridge.armM[index]!, setbackM: bridge.setbackM}, angleRad);
}

/** Tension in newtons at a travel in metres; 0 when slack. */
export function tensionAt(bridge: Bridge, index: number, travelM: number): number {
	const wireM = bridge.wireM[index]!;
	const extensionM = bridge.speakingLengthM[index]! + effectiveM(bridge, index, travelM) - wireM;
	return extensionM > 0 ? (bridge.axialStiffnessN[index]! * extensionM) / wireM : 0;
}

/** Newtons per metre of travel while the nut holds the wire; 0 when slack. */
export function stiffnessAt(bridge: Bridge, index: number, travelM: number): number {
	return tensionAt(bridge, index, travelM) > 0 ? bridge.axialStiffnessN[index]! / bridge.wireM[index]! : 0;
}

function effectiveM(bridge: Bridge, index: number, travelM: number): number {
	const low = bridge.slidesBelowM[index]!;
	if (travelM < low) return low + bridge.sharing[index]! * (travelM - low);
	const high = bridge.slidesAboveM[index]!;
	return travelM > high ? high + bridge.sharing[index]! * (travelM - high) : travelM;
}

/** Frequency in hertz at a travel in metres; `undefined` for a slack string. */
export function frequencyAt(bridge: Bridge, index: number, travelM: number): number | undefined {
	const tensionN = tensionAt(bridge, index, travelM);
	if (tensionN <= 0) return undefined;
	const waveSpeed = Math.sqrt(
		(tensionN * (1 + tensionN / bridge.axialStiffnessN[index]!)) / bridge.massPerLengthKgPerM[index]!,
	);
	return waveSpeed / (2 * (bridge.speakingLengthM[index]! + travelM));
}

/** Tension in newtons that gives a frequency in hertz at a travel: T (1 + T/EA) = 4 μ₀ (L + travel)² f². */
export function tensionForFrequency(bridge: Bridge, index: number, frequencyHz: number, travelM: number): number {
	const speedMPerS = 2 * (bridge.speakingLengthM[index]! + travelM) * frequencyHz;
	const loadN = bridge.massPerLengthKgPerM[index]! * speedMPerS * speedMPerS;
	return (2 * loadN) / (1 + Math.sqrt(1 + (4 * loadN) / bridge.axialStiffnessN[index]!));
}

/** Angle at which the bridge comes to rest, radians; a stop's angle when it rests on one. */
export function restAngleRad(bridge: Bridge, startRad = 0): number {
	if (bridge.blockedAtRad !== undefined) return bridge.blockedAtRad;
	return risingRoot(angle => momentAndSlope(bridge, angle), {
		low: bridge.frontStopRad,
		high: bridge.backStopRad,
		start: startRad,
		tolerance: 1e-10,
	});
}

/**
 * Moment of the strings less that of the springs, N m, and its slope, N m/rad: zero at rest.
 *
 * @param holdHz Strings kept at a pitch by a hand, hertz; anything but a positive number leaves a string alone.
 */
export function momentAndSlope(
	bridge: Bridge,
	angleRad: number,
	holdHz?: ArrayLike<number>,
): readonly [moment: number, slope: number] {
	const sin = Math.sin(angleRad);
	const cos = Math.cos(angleRad);
	const behindM = bridge.setbackM * (1 - cos);
	let moment = bridge.springRateNmPerRad * angleRad - bridge.springMomentNm;
	let slope = bridge.springRateNmPerRad;
	for (let index = 0; index < bridge.armM.length; index++) {
		const armM = bridge.armM[index]!;
		const travelM = armM * sin - behindM;
		const leverM = armM * cos - bridge.setbackM * sin;
		const curveM = -armM * sin - bridge.setbackM * cos;
		const heldHz = holdHz?.[index];
		if (heldHz !== undefined && heldHz > 0) {
			const tensionN = tensionForFrequency(bridge, index, heldHz, travelM);
			moment += tensionN * leverM;
			// At a held pitch the tension goes with the square of the length.
			slope += tensionN * curveM + (2 * tensionN * leverM * leverM) / bridge.speakingLengthM[index]!;
			continue;
		}

		const wireM = bridge.wireM[index]!;
		const effective = effectiveM(bridge, index, travelM);
		const extensionM = bridge.speakingLengthM[index]! + effective - wireM;
		if (extensionM <= 0) continue;
		const perMetreN = bridge.axialStiffnessN[index]! / wireM;
		const tensionN = perMetreN * extensionM;
		moment += tensionN * leverM;
		const slides = effective === travelM ? 1 : bridge.sharing[index]!;
		slope += slides * perMetreN * leverM * leverM + tensionN * curveM;
	}

	return [moment, slope];
}
