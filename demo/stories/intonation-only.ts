import {asked, type DemoStory, says} from '../story.ts';

/** Strings, claw and tuning are right; only the saddles stand anywhere. */
export const intonationOnly: DemoStory = {
	name: 'intonation-only',
	title: 'Intonation only',
	told: [
		'In tune and level, but chords above the 12th fret are sour: somebody has moved the saddles by eye.',
		'All strings are read first, then all saddles moved in one slack period.',
	],
	frettedCents: 3,
	seeds: [2, 12],
	intentions: [
		says('Look it over', '5 4', 'Line 5 is the job: intonation only.'),
		{
			because: 'Slipped while typing: 45 instead of 4.5; the wizard wonders, so it is plucked again.',
			when: ({stage, task}) => stage.id === 'intonate' && task.headline.startsWith('Lift the finger'),
			does: [{kind: 'types', text: '+45'}],
		},
		{
			because: 'The screw slid a little further than told; what was really moved is typed.',
			when: asked('intonate', 'Move the saddle'),
			does: [moment => ({kind: 'types', text: slightlyMore(moment.task.enter!.deeds)})],
		},
		{
			because: 'That was string 3, not this one.',
			when: asked('re-lock', 'Pluck string 4'),
			does: [{kind: 'types', text: '+6'}, {kind: 'takes-back'}],
		},
	],
};

/** A quarter of a millimetre further the same way, as typed. */
function slightlyMore(deeds: unknown): string {
	const [move] = deeds as readonly {readonly travelMm?: number}[];
	const travelMm = move?.travelMm ?? 0;
	return `${(Math.abs(travelMm) + 0.25).toFixed(2)} ${travelMm < 0 ? 'forward' : 'back'}`;
}
