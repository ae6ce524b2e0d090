import {risingRoot} from '../numeric/rising-root.ts';
import {type Bridge, momentAndSlope, tensionForFrequency, travelAt} from './bridge.ts';

/**
 * Where the bridge rests once each held string has been turned until it
 * sounds its frequency, the others left as they are. What a peg must do is
 * found together with the angle, so the answer is exact for the model.
 *
 * @param holdHz One entry a string, hertz; anything but a positive number leaves it alone.
 */
export function holdingAngleRad(bridge: Bridge, holdHz: ArrayLike<number>, startRad = 0): number {
	return (
		bridge.blockedAtRad ??
		risingRoot(angle => momentAndSlope(bridge, angle, holdHz), {
			low: bridge.frontStopRad,
			high: bridge.backStopRad,
			start: startRad,
			tolerance: 1e-10,
		})
	);
}

/** Unstretched wire, metres, with which a string sounds a frequency at an angle (no wire slides afterwards). */
export function wireForFrequencyM(bridge: Bridge, index: number, frequencyHz: number, angleRad: number): number {
	const travelM = travelAt(bridge, index, angleRad);
	return wireForTensionM(bridge, index, tensionForFrequency(bridge, index, frequencyHz, travelM), travelM);
}

/** Unstretched wire, metres, that makes a tension > 0 at a travel: (L + travel) / (1 + T / EA). */
export function wireForTensionM(bridge: Bridge, index: number, tensionN: number, travelM: number): number {
	return (bridge.speakingLengthM[index]! + travelM) / (1 + tensionN / bridge.axialStiffnessN[index]!);
}
