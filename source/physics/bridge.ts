import {risingRoot} from '../numeric/rising-root.ts';
import {type ElasticString, frequencyAt, stiffnessAt, tensionAt} from './elastic-string.ts';
import {type Lever, travelAt, travelCurvatureAt, travelSlopeAt} from './lever.ts';

/**
 * A floating bridge with its strings and springs: settings in, angle and
 * pitches out. Exact static equilibrium of
 *
 *     Σ Tᵢ(θ) · armᵢ(θ)  =  M₀ − K θ
 *
 * slack strings, a back stop and a support included. Left out: friction,
 * weight of the bridge, bending of posts and neck.
 */
export interface Bridge {
	readonly strings: readonly (ElasticString & Lever)[];
	/** K, newton metres per radian, > 0: springs × rate × (arm of the springs)². */
	readonly springRateNmPerRad: number;
	/** M₀, moment of the springs with the plate level, newton metres. */
	readonly springMomentAtLevelNm: number;
	/** Largest angle (string side back) before block or plate meets the body, radians. */
	readonly backStopRad: number;
	/** Smallest angle (dived) the body allows, radians, negative. */
	readonly frontStopRad: number;
	/** Angle at which a support holds the plate; absent when it floats. */
	readonly blockedAtRad?: number;
}

/** Angle at which the bridge comes to rest, radians; a stop's angle when it rests on one. */
export function restAngleRad(bridge: Bridge, startRad = 0): number {
	if (bridge.blockedAtRad !== undefined) return bridge.blockedAtRad;
	return risingRoot(angle => momentAndSlope(bridge, angle), {
		low: bridge.frontStopRad,
		high: bridge.backStopRad,
		start: startRad,
		tolerance: 1e-11,
	});
}

/** Moment of the strings less that of the springs, N m, and its slope, N m/rad: zero at rest. */
export function momentAndSlope(bridge: Bridge, angleRad: number): readonly [moment: number, slope: number] {
	let moment = bridge.springRateNmPerRad * angleRad - bridge.springMomentAtLevelNm;
	let slope = bridge.springRateNmPerRad;
	for (const string of bridge.strings) {
		const travel = travelAt(string, angleRad);
		const tension = tensionAt(string, travel);
		if (tension === 0) continue;
		const arm = travelSlopeAt(string, angleRad);
		moment += tension * arm;
		slope += stiffnessAt(string, travel) * arm * arm + tension * travelCurvatureAt(string, angleRad);
	}

	return [moment, slope];
}

/** Frequencies in hertz of all strings at an angle; `undefined` for a slack one. */
export function frequenciesAt(bridge: Bridge, angleRad: number): readonly (number | undefined)[] {
	return bridge.strings.map(string => frequencyAt(string, travelAt(string, angleRad)));
}
