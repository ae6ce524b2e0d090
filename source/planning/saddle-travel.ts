import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';

/** The two threaded holes that a saddle's hold-down screw may use, by which part of the travel each serves. Common practice, no source. */
export const saddleHoles = ['front', 'back'] as const;
export type SaddleHole = (typeof saddleHoles)[number];

/** How far one saddle can go, mm behind the scale line; positive = back. */
export interface SaddleTravel {
	/** Both holes together, [forward end, back end]. */
	readonly rangeMm: readonly [number, number];
	/** Part of the range that each hole serves; they overlap. */
	readonly holesMm: Readonly<Record<SaddleHole, readonly [number, number]>>;
	/** Hole that the screw is in, if known. */
	readonly hole?: SaddleHole;
}

/** Travel with both holes where nobody measured it: about 10 mm. Common practice, no source; bridges differ. */
export const usualRangeMm = [-3, 8] as const;

/** Share of the whole travel that one hole serves: judgement. */
const shareOfOneHole = 0.6;

/**
 * Travel from its ends alone.
 *
 * @param rangeMm [forward end, back end], mm behind the scale line; the first below the second.
 * @throws {RangeError} If the ends are not in order.
 */
export function saddleTravelOf(rangeMm: readonly [number, number] = usualRangeMm, hole?: SaddleHole): SaddleTravel {
	const [frontMm, backMm] = rangeMm;
	if (!(frontMm < backMm)) {
		throw new RangeError(`saddleTravelOf: expected rangeMm to rise, got [${frontMm}, ${backMm}]`);
	}
	const oneMm = shareOfOneHole * (backMm - frontMm);
	return {
		rangeMm,
		holesMm: {front: [frontMm, frontMm + oneMm], back: [backMm - oneMm, backMm]},
		...(hole ? {hole} : {}),
	};
}

/** Whether a place can be reached, and how. */
export type Reach =
	| {
			readonly kind: 'reachable';
			readonly hole: SaddleHole;
			/** The screw has to change holes; undefined when it is not known where it is. */
			readonly changesHole: boolean | undefined;
			/** Chance that the place lies within the whole travel, 0 to 1. */
			readonly chance: number;
	  }
	/** The saddle's place is too little known to say: measure it before slackening. */
	| {readonly kind: 'measure-first'; readonly chance: number}
	/** Not within the travel: the nearest end, and the travel to it, mm. */
	| {readonly kind: 'out'; readonly end: 'front' | 'back'; readonly travelMm: number; readonly chance: number};

/** Chances between which it is worth measuring where the saddle stands. */
const surelyOut = 0.1;
const surelyIn = 0.9;

/**
 * @param positionMm Where the saddle stands now; its spread counts.
 * @param travelMm Wanted travel, positive = back.
 */
export function reachOf(travel: SaddleTravel, positionMm: Estimate, travelMm: number): Reach {
	const {rangeMm, holesMm, hole} = travel;
	const targetMm = positionMm.mean + travelMm;
	const [frontMm, backMm] = rangeMm;
	const middleMm = (frontMm + backMm) / 2;
	const chance = probabilityWithin({mean: targetMm - middleMm, sd: positionMm.sd}, backMm - middleMm);
	if (chance < surelyOut) {
		const end = targetMm < frontMm ? 'front' : 'back';
		return {kind: 'out', end, travelMm: (end === 'front' ? frontMm : backMm) - positionMm.mean, chance};
	}
	if (chance < surelyIn) return {kind: 'measure-first', chance};
	const serves = (each: SaddleHole) => targetMm >= holesMm[each][0] - 1e-9 && targetMm <= holesMm[each][1] + 1e-9;
	const presently = hole ?? (positionMm.sd < 0.5 ? soleHoleAt(travel, positionMm.mean) : undefined);
	const wanted =
		presently && serves(presently) ? presently : (saddleHoles.find(serves) ?? (targetMm < middleMm ? 'front' : 'back'));
	return {kind: 'reachable', hole: wanted, changesHole: presently && presently !== wanted, chance};
}

/** The hole the screw must be in at a place that only one of them serves. */
function soleHoleAt({holesMm}: SaddleTravel, positionMm: number): SaddleHole | undefined {
	const serving = saddleHoles.filter(each => positionMm >= holesMm[each][0] && positionMm <= holesMm[each][1]);
	return serving.length === 1 ? serving[0] : undefined;
}
