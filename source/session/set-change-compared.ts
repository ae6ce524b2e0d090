import type {Learned} from '../estimation/memory.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {tensionsOf} from '../planning/landing.ts';
import {beliefOf} from './belief-of.ts';
import {clawSenseOf} from './claw-sense.ts';
import {stateOf} from './evolve.ts';
import type {Story} from './facts.ts';
import {changeForecastOf} from './set-change.ts';
import {advanceFor} from '../planning/claw-sense.ts';

/** One thing that was foreseen, beside what came true as far as the story goes. */
export interface Compared {
	readonly what: 'total-tension' | 'claw-turns' | 'tail-at-pitch';
	/** Newtons, turns (positive tighter) or millimetres (positive high). */
	readonly unit: 'N' | 'turns' | 'mm';
	readonly foreseen: Estimate;
	readonly came: Estimate;
	/** True when the two agree within twice their spreads together. */
	readonly agrees: boolean;
}

/** What became of a forecast. Springs are counted, the rest is judged with its spread. */
export interface ForecastCompared {
	readonly rows: readonly Compared[];
	readonly springsForeseen: number;
	readonly springsFitted: number;
}

/**
 * What was foreseen before anything was undone against what the work then
 * showed: the pull of the strings as their readings taught it, the claw turns
 * made and still to make, and where the plate would have stood without them.
 *
 * @returns Undefined when nothing was changed, or the plate was not yet measured with the new strings on.
 */
export function compareForecast(story: Story, learned?: Learned): ForecastCompared | undefined {
	const forecast = changeForecastOf(story, learned);
	const state = stateOf(story);
	const {sheet} = state;
	if (!forecast || !sheet) return undefined;
	const measured = story.findLastIndex(({type}) => type === 'PlateMeasured');
	const changed = story.findLastIndex(({type}) => type === 'StringFitted' || type === 'PegTurned');
	const begun = story.findIndex(({type}) => type === 'StringFitted' || type === 'PegTurned');
	if (begun < 0 || changed < 0 || measured < begun) return undefined;
	const belief = beliefOf(story, sheet, learned);
	const {sense} = clawSenseOf(story, sheet, learned);
	const perTurn = 1000 / sheet.clawScrewPitchMm;
	const toGo = advanceFor(sense, sheet.plateWishMm / 1000);
	const made = state.claw.meanTurns;
	const turns: Estimate = {mean: made + toGo.mean * perTurn, sd: toGo.sd * perTurn};
	const perTurnMm = (sheet.clawScrewPitchMm * sense.tailArmM) / Math.exp(sense.logArm);
	const totalN = tensionsOf(belief, belief.mean).reduce((sum, each) => sum + each, 0);
	const rows: Omit<Compared, 'agrees'>[] = [
		{
			what: 'total-tension',
			unit: 'N',
			foreseen: forecast.totalN,
			// Readings tell pitch well and mass hardly: most of what was not known stays so.
			came: {mean: totalN, sd: forecast.totalN.sd},
		},
		{what: 'claw-turns', unit: 'turns', foreseen: forecast.clawTurns, came: turns},
		{
			what: 'tail-at-pitch',
			unit: 'mm',
			foreseen: forecast.tailAtPitchMm,
			came: {
				mean: sense.tailM * 1000 + made * perTurnMm,
				sd: Math.hypot(Math.sqrt(sense.tailVariance) * 1000, made * perTurnMm * Math.sqrt(sense.armVariance)),
			},
		},
	];
	return {
		rows: rows.map(row => ({...row, agrees: agree(row.foreseen, row.came)})),
		springsForeseen: forecast.springs.kind === 'cannot' ? sheet.springs : forecast.springs.outlook.springs,
		springsFitted: state.springs ?? sheet.springs,
	};
}

function agree(one: Estimate, other: Estimate): boolean {
	const sd = Math.max(1e-9, Math.hypot(one.sd, other.sd));
	return probabilityWithin({mean: 0, sd}, Math.abs(one.mean - other.mean)) < 0.954;
}
