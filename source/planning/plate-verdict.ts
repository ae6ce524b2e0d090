import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {sureShare} from './claw-moment.ts';

/** Whether the plate stands as wished, as far as measuring tells. */
export type PlateVerdict = 'stands' | 'measure-again' | 'off';

/** Measures of one and the same state beyond which another tells nothing: what the ruler does wrong alike stays. */
const mostMeasures = 4;
/** Where a step of the claw is that much surer than leaving it, it is made even so late. Judgement. */
const lateWorth = 0.15;

/**
 * Judges the plate after a pass. A height near the edge of the tolerance is
 * measured again rather than answered by another claw step, for a ruler is
 * quicker than tuning round once more.
 *
 * @param tailM Believed tail height, all measures taken in, metres.
 * @param measures How often it was measured since anything moved it.
 * @param turned Chance that it stands as wished after another turn of the claw; 0 where none is to be had.
 */
export function plateVerdict(
	tailM: Estimate,
	{
		wishM,
		toleranceM,
		measures,
		turned = 0,
	}: {readonly wishM: number; readonly toleranceM: number; readonly measures: number; readonly turned?: number},
): PlateVerdict {
	if (measures === 0) return 'measure-again';
	const stands = probabilityWithin({mean: tailM.mean - wishM, sd: tailM.sd}, toleranceM);
	if (stands >= sureShare) return 'stands';
	if (stands > 1 - sureShare && measures < mostMeasures) return 'measure-again';
	return stands > 0.5 && turned <= stands + lateWorth ? 'stands' : 'off';
}
