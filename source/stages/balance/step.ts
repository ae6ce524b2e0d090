import type {Bench} from '../../session/bench.ts';
import {choiceAfter, lastOf} from '../common/story.ts';
import {clawTravelMm, plateToleranceMm, springForceRangeN} from '../common/limits.ts';

export const id = 'balance';
export const plateChoice = 'plate';
export const measureAgain = 'measure again';
export const clawAnyway = 'claw anyway';

export type Step =
	| {readonly kind: 'measure'; readonly again: boolean}
	| {readonly kind: 'tune'}
	| {readonly kind: 'claw'; readonly turns: number}
	| {readonly kind: 'springs'; readonly count: number}
	| {readonly kind: 'done'; readonly near: boolean};

/** One measure, one claw step, one guided pass, one measure; round again only if that was not enough. */
export function stepOf(bench: Bench): Step {
	const {story, plate, tuning, sheet} = bench;
	const measured = lastOf(story, 'PlateMeasured');
	const changed = Math.max(lastOf(story, 'ClawTurned'), lastOf(story, 'SpringsChanged'));
	const chosen = choiceAfter(story, plateChoice, Math.max(measured, changed));
	if (chosen === measureAgain) return {kind: 'measure', again: true};
	if (measured < 0) return {kind: 'measure', again: false};
	const isTuned = tuning.kind === 'done';
	if (changed > measured) return isTuned ? {kind: 'measure', again: true} : {kind: 'tune'};
	if (!plate.measured || plate.measured.touchedSince > 0) {
		return isTuned ? {kind: 'measure', again: changed >= 0} : {kind: 'tune'};
	}
	const tailMm = isTuned ? plate.measured.tailMm : plate.tailAtPitchMm.mean;
	const turns = eighths(plate.clawTurns.mean);
	const isLevel = Math.abs(tailMm - sheet.plateWishMm) <= plateToleranceMm;
	if (isLevel || turns === 0) return isTuned ? {kind: 'done', near: !isLevel} : {kind: 'tune'};
	const springs = springsFor(bench, turns);
	return springs === bench.springs || chosen === clawAnyway ? {kind: 'claw', turns} : {kind: 'springs', count: springs};
}

/** What a hand can turn. */
export function eighths(turns: number): number {
	return Math.round(turns * 8) / 8;
}

/** One spring more or fewer when the claw would leave its travel or the springs their usual pull; else as many as now. */
function springsFor({plate, springs, sheet}: Bench, turns: number): number {
	const travelMm = (plate.clawTurnsMade + turns) * sheet.clawScrewPitchMm;
	const [least, most] = springForceRangeN;
	if ((travelMm > clawTravelMm || plate.springForceN > most) && springs < 6) return springs + 1;
	if ((travelMm < -clawTravelMm || plate.springForceN < least) && springs > 1) return springs - 1;
	return springs;
}
