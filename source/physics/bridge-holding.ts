import {risingRoot} from '../numeric/rising-root.ts';
import {type Bridge, momentAndSlope} from './bridge.ts';
import {stretchForFrequency, tensionAt} from './elastic-string.ts';
import {travelAt, travelCurvatureAt, travelSlopeAt} from './lever.ts';

/** A bridge at rest with some strings brought to given pitches by hand. */
export interface Held {
	readonly angleRad: number;
	/** Stretch with the plate level, metres, of every string: found for the held ones, as given for the others. */
	readonly stretchM: readonly number[];
}

/**
 * Where the bridge rests once each held string has been turned until it
 * sounds its frequency, the others left as they are. What a peg must do is
 * found together with the angle, so the answer is exact for the model.
 *
 * @param holdHz One entry a string, hertz; `undefined` leaves it alone.
 */
export function holding(bridge: Bridge, holdHz: readonly (number | undefined)[]): Held {
	const others: Bridge = {...bridge, strings: bridge.strings.filter((_, index) => holdHz[index] === undefined)};
	const held = bridge.strings.flatMap((string, index) => {
		const frequencyHz = holdHz[index];
		return frequencyHz === undefined ? [] : [{string, frequencyHz}];
	});
	const pull = (angle: number): readonly [number, number] => {
		let [moment, slope] = momentAndSlope(others, angle);
		for (const {string, frequencyHz} of held) {
			const travel = travelAt(string, angle);
			const tension = tensionAt({...string, stretchM: stretchForFrequency(string, frequencyHz, travel)}, travel);
			moment += tension * travelSlopeAt(string, angle);
			// At a held pitch the tension goes with the square of the length.
			slope +=
				tension * travelCurvatureAt(string, angle) +
				(2 * tension * travelSlopeAt(string, angle) ** 2) / string.speakingLengthM;
		}

		return [moment, slope];
	};
	const angleRad =
		bridge.blockedAtRad ??
		risingRoot(pull, {low: bridge.frontStopRad, high: bridge.backStopRad, start: 0, tolerance: 1e-11});
	return {
		angleRad,
		stretchM: bridge.strings.map((string, index) => {
			const frequencyHz = holdHz[index];
			return frequencyHz === undefined
				? string.stretchM
				: stretchForFrequency(string, frequencyHz, travelAt(string, angleRad));
		}),
	};
}
