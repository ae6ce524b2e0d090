import {asked, type DemoStory, says} from '../story.ts';

/** Everything, on seven strings: drifted pitches, a claw that was turned, saddles off. */
export const sevenString: DemoStory = {
	name: 'seven-string',
	title: 'The whole set-up of a seven-string',
	told: [
		'A seven-string that nobody has looked after: out of tune, the tail not level, the saddles anywhere,',
		'the nut still locked. The strings are fresh and stay on.',
	],
	frettedCents: 3,
	seeds: [4, 19],
	intentions: [
		says('How many strings', '7', 'One more than usual.'),
		{
			because: 'The gap was read off the wrong end of the rule.',
			when: asked('balance', 'Measure'),
			does: [{kind: 'types', text: '9.5', meant: true}, {kind: 'takes-back'}],
		},
	],
};
