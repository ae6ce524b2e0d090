/**
 * `npm run bench`: time for one entry, from the fact to everything a screen
 * shows, as a session grows to 300 facts: what is believed (one more fact
 * learned), what is advised, and all of the bench with it.
 */
import {quantile} from 'simple-statistics';
import {usualGoal} from '../../source/planning/goal.ts';
import {planTuning} from '../../source/planning/tuning-plan.ts';
import {stringNumbers} from '../../source/music/string-number.ts';
import {beliefOf} from '../../source/session/belief-of.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Deed, Fact, Story} from '../../source/session/facts.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';

/** Invented: strings turned and read in turn, each a little nearer. */
function storyOf(sheet: InstrumentSheet, length: number): Story {
	const deeds: Deed[] = [{type: 'SheetFilled', sheet}, {type: 'NutOpened'}];
	for (let round = 0; deeds.length < length; round++) {
		const string = stringNumbers[round % sheet.strings.length]!;
		const cents = Math.round(-300 * 0.8 ** Math.floor(round / sheet.strings.length)) / 10;
		if (round >= sheet.strings.length) deeds.push({type: 'PegTurned', string, untilCents: cents});
		deeds.push({type: 'PitchRead', string, how: 'open', cents, entered: String(cents)});
	}

	return deeds.slice(0, length).map((deed, entry): Fact => ({...deed, at: 1000 * entry, entry}));
}

function msOf(work: () => unknown): number {
	const start = performance.now();
	work();
	return performance.now() - start;
}

const median = (values: readonly number[]) => quantile([...values], 0.5);
const cell = (value: number) => value.toFixed(1).padStart(12);

function main(): void {
	const sheet = defaultSheet();
	console.log('milliseconds of processor time are not told apart from waiting: run it on an idle machine');
	console.log(
		`${'facts'.padEnd(7)}${['learn one', 'advise', 'both, most', 'all shown', 'replay all'].map(word => word.padStart(12)).join('')}`,
	);
	for (const length of [40, 40, 100, 200, 300]) {
		const learns: number[] = [];
		const plans: number[] = [];
		const shown: number[] = [];
		const whole = storyOf(sheet, length);
		for (let time = 0; time < 15; time++) {
			const story = whole.slice(0, length - 15 + time);
			benchOf(story);
			const last = whole.slice(0, story.length + 1);
			learns.push(msOf(() => beliefOf(last, sheet)));
			const belief = {...beliefOf(last, sheet)};
			plans.push(
				msOf(() =>
					planTuning(
						belief,
						usualGoal,
						sheet.strings.map(() => 0),
					),
				),
			);
			shown.push(msOf(() => benchOf(last)));
		}

		const afresh = {...sheet};
		const replay = msOf(() => beliefOf(whole, afresh));
		console.log(
			String(length).padEnd(7) +
				[
					median(learns),
					median(plans),
					Math.max(...learns.map((learn, at) => learn + plans[at]!)),
					median(shown),
					replay,
				]
					.map(cell)
					.join(''),
		);
	}

	console.log(
		'Learning and advice do not grow with the session: a belief is kept for every fact. What grows is the replay of\n' +
			'the whole story, when a session is opened or its sheet is changed: one step of learning a fact.',
	);
}

main();
