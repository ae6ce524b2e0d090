import type {Bench, StringRow} from '../../session/bench.ts';
import {choiceAfter, isReadAfter, lastOf} from '../common/story.ts';

export const id = 're-check';
export const tuneChoice = 're-check: out of tolerance';
export const tunes = 'tune';

export type Step = {readonly kind: 'read'; readonly rows: readonly StringRow[]} | {readonly kind: 'told' | 'tune'};

/** Every string read as it was left, then what that tells, then the strings brought back if the person wants. */
export function stepOf(bench: Bench): Step {
	const begun = lastOf(bench.story, 'DayPassed');
	if (choiceAfter(bench.story, tuneChoice, begun) === tunes) {
		return bench.tuning.kind === 'done' ? {kind: 'told'} : {kind: 'tune'};
	}
	const rows = bench.strings.filter(
		({string, state}) => state !== 'off' && !isReadAfter(bench.story, string, 'open', begun),
	);
	return rows.length > 0 ? {kind: 'read', rows} : {kind: 'told'};
}

/** Strings that were read out of tolerance and not turned since. */
export function outOfTolerance({strings, sheet}: Bench): readonly StringRow[] {
	return strings.filter(({now}) => now !== undefined && Math.abs(now.mean) > sheet.openToleranceCents);
}

/** True once a hand has changed something after the readings: they stand, and are judged, as they were before. */
export function isTuned({story}: Bench): boolean {
	return Math.max(lastOf(story, 'FineTunerTurned'), lastOf(story, 'PegTurned')) > lastOf(story, 'DayPassed');
}
