import type {Bench} from '../session/bench.ts';
import type {Deed, Story} from '../session/facts.ts';
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
	const nights = nightsSince(bench.story, now);
	const how = [v, ways];
	if (nights === 0) {
		return {
			headline: 'This set-up is done.',
			why: 'All steps are behind you and everything is stored.',
			how,
			prompt: 'nothing is asked',
			progress: 1,
		};
	}
	return {
		headline:
			nights === 1
				? 'This set-up has rested for a night. Check whether it has stayed.'
				: `This set-up was finished ${formatCount(nights, 'day')} ago. Check whether it has stayed.`,
		why: 'New strings settle, and a fault shows by now: the readings tell the one from the other.',
		how: ['Touch nothing before every string was plucked once.', ...how],
		prompt: 'Enter for the re-check',
		enter: {label: 're-check', deeds: recheckDeeds},
		progress: 1,
	};
}

export function endKeys(bench: Bench, now: number): readonly KeyAction[] {
	const isPractice = bench.sheet.practiceSeed !== undefined;
	const ask = 'It was finished less than a night ago. Check it now as if a day had passed?';
	const isAsked = !isPractice && nightsSince(bench.story, now) === 0;
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

/** Nights since the last entry, as whole days rounded; 0 until one has passed. */
export function nightsSince(story: Story, now: number): number {
	const restedMs = now - (story.at(-1)?.at ?? now);
	return restedMs < nightMs ? 0 : Math.max(1, Math.round(restedMs / dayMs));
}
