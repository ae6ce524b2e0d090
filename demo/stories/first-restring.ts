import {asked, type DemoStory, says} from '../story.ts';

/** Tens off, tens on, one string at a time: the job that most people give up on. */
export const firstRestring: DemoStory = {
	name: 'first-restring',
	title: 'A first restring',
	told: [
		'Somebody who has never changed strings on a floating bridge puts a fresh set of tens on,',
		'the same as before, one string at a time, and does what the screen says. Mostly.',
	],
	seeds: [3, 11, 27],
	intentions: [
		says('Which strings', 'tens', 'It says so on the packet.'),
		says('Look it over', '5 2', 'Line 5 is the job; its second choice is new strings of the same kind.'),
		{
			because: 'The letter O where a zero belongs.',
			when: asked('tune', 'Pluck string 2'),
			does: [{kind: 'types', text: '-1O'}],
		},
		{
			because: 'The tuner had picked up another string; it was not −90 at all.',
			when: asked('tune', 'Pluck string 5'),
			does: [{kind: 'types', text: '-90', meant: true}, {kind: 'takes-back'}],
		},
		{
			because: 'The fourth string has annoyed me long enough: that one now.',
			when: ({bench, task}) => bench.adjustments > 8 && task.headline.startsWith('Turn string') && task.string !== 4,
			does: [{kind: 'types', text: '4:'}],
		},
	],
};
