import type {Bench} from '../session/bench.ts';
import type {Deed} from '../session/facts.ts';
import type {KeyAction, Task} from '../stages/stage.ts';
import {formatCount} from '../units/quantities.ts';

/** Less than this since the last entry is no night. */
const nightMs = 8 * 3600 * 1000;
const dayMs = 24 * 3600 * 1000;

/** What is read from here on is another day's. */
const recheckDeeds: readonly Deed[] = [{type: 'DayPassed'}, {type: 'StageReopened', stage: 're-check'}];

const v = 'v shows the set-up sheet, w writes it to a file, k checks it again after a day.';
const ways = '< opens the last step again, l goes to the list of guitars and set-ups, q leaves.';

/** After the last step nothing is asked any more; once a night has passed, whether it stayed. */
export function endTask(bench: Bench, now: number): Task {
	const restMs = restedMs(bench, now);
	const how = [v, ways];
	if (restMs < nightMs) {
		return {
			headline: 'This set-up is done.',
			why: 'All steps are behind you and everything is stored.',
			how,
			prompt: 'nothing is asked',
			progress: 1,
		};
	}
	const days = Math.max(1, Math.round(restMs / dayMs));
	return {
		headline: `Done ${formatCount(days, 'day')} ago. Check whether it has stayed.`,
		why: 'New strings settle, and a fault shows by now: the readings tell the one from the other.',
		how: ['Touch nothing before every string was plucked once.', ...how],
		prompt: 'Enter for the re-check',
		enter: {label: 're-check', deeds: recheckDeeds},
		progress: 1,
	};
}

export function endKeys(bench: Bench, now: number): readonly KeyAction[] {
	const isPractice = bench.sheet.practiceSeed !== undefined;
	const ask = 'That was today. Check it as if a day had passed?';
	const isAsked = !isPractice && restedMs(bench, now) < nightMs;
	return [
		{key: 'v', label: 'read the sheet', does: {kind: 'shell', name: 'sheet'}},
		{key: 'w', label: 'write the sheet', does: {kind: 'shell', name: 'save-sheet'}},
		{
			key: 'k',
			label: isPractice ? 'let a day pass' : 're-check',
			does: {kind: 'deeds', deeds: recheckDeeds, ...(isAsked && {ask})},
		},
	];
}

function restedMs({story}: Bench, now: number): number {
	return now - (story.at(-1)?.at ?? now);
}
