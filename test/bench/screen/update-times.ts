import {usualGoal} from '../../../source/planning/goal.ts';
import {planTuning} from '../../../source/planning/tuning-plan.ts';
import {beliefOf} from '../../../source/session/belief-of.ts';
import {benchOf} from '../../../source/session/bench-of.ts';
import {defaultSheet} from '../../../source/session/catalog/default-sheet.ts';
import {longStory} from './long-session.ts';
import {quantileOf, table} from './table.ts';

function msOf(work: () => unknown): number {
	const start = performance.now();
	work();
	return performance.now() - start;
}

/**
 * Time for one entry, from the fact to everything a screen shows, as a session
 * grows to 300 facts: what is believed (one more fact learned), what is
 * advised, and all of the bench with it.
 */
export function updateTimes(): string {
	const sheet = defaultSheet();
	const rows: string[][] = [];
	// The first round warms what is compiled as it is used.
	for (const length of [40, 40, 100, 200, 300]) {
		const learns: number[] = [];
		const plans: number[] = [];
		const shown: number[] = [];
		const whole = longStory(length, sheet);
		for (let time = 0; time < 15; time++) {
			const story = whole.slice(0, length - 15 + time);
			benchOf(story);
			const last = whole.slice(0, story.length + 1);
			learns.push(msOf(() => beliefOf(last, sheet)));
			const belief = {...beliefOf(last, sheet)};
			const reads = sheet.strings.map(() => 0);
			plans.push(msOf(() => planTuning(belief, usualGoal, reads)));
			shown.push(msOf(() => benchOf(last)));
		}

		const both = learns.map((learn, at) => learn + plans[at]!);
		const replay = msOf(() => beliefOf(whole, {...sheet}));
		const figures = [
			quantileOf(learns, 0.5),
			quantileOf(plans, 0.5),
			Math.max(...both),
			quantileOf(shown, 0.5),
			replay,
		];
		rows.push([String(length), ...figures.map(ms => ms.toFixed(1))]);
	}

	return table(
		['facts stored, ms for the next', 'learned', 'advised', 'both, most', 'all shown', 'replay of all'],
		rows.slice(1),
	);
}
