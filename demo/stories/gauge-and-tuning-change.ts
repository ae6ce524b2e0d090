import {asked, type DemoStory, says} from '../story.ts';

/** Nines in standard come off, elevens a half-step down go on: another pull, other springs' work, other saddles. */
export const gaugeAndTuningChange: DemoStory = {
	name: 'gauge-and-tuning-change',
	title: 'Other gauges and another tuning',
	told: [
		'A bench gets a guitar strung with nines in standard tuning; its owner wants elevens, a half-step down.',
		'All strings come off at once over a support, and the plate is set level again.',
	],
	frettedCents: 3,
	seeds: [5, 14],
	intentions: [
		says('Which strings', 'elevens', 'The new packet.'),
		says('Which notes', 'half-step down', 'As the band tunes.'),
		says('Look it over', '5 3', 'Line 5 is the job: other gauges or another tuning.'),
		says('Type the new gauges before', 'nines', 'What is on now.'),
		says('Type the new tuning before', 'standard', 'And how it is tuned.'),
		{
			because: 'All off at once is quicker, with a block of card under the bridge.',
			when: asked('unlock', 'Choose how'),
			does: [{kind: 'types', text: '3'}],
		},
		{
			because: 'Not what was asked for; taken back.',
			when: ({task}) => task.act?.kind === 'claw',
			does: [{kind: 'types', text: '1 1/2 looser'}, {kind: 'takes-back'}],
		},
		{
			because: 'String 5 is at hand anyway.',
			when: ({bench, task}) => !bench.blocked && task.headline.startsWith('Turn string') && task.string !== 5,
			does: [{kind: 'types', text: '5:'}],
		},
	],
};
