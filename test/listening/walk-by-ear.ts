/**
 * `npm run walk:by-ear [seed]`: a whole set-up of the practice guitar by ear
 * alone, every pluck played on a virtual sound card and listened to live, at
 * 44.1 kHz; then its saddles once more at 48 kHz. Takes as long as it sounds.
 */
import {quantile} from 'simple-statistics';
import {truth} from '../../source/practice/index.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {practiceGuitarOf} from '../../source/session/practice-world.ts';
import type {Job} from '../../source/session/sheet.ts';
import {setUpByEar} from './by-ear.ts';
import {openLiveEars} from './sources/live-ears.ts';
import {trySoundCard} from './sources/virtual-sound-card.ts';

const seed = Number(process.argv[2] ?? 3);
const walks: readonly {readonly job: Job; readonly sampleRateHz: number; readonly stagesHeard?: readonly string[]}[] = [
	{job: 'whole', sampleRateHz: 44_100},
	{job: 'intonation', sampleRateHz: 48_000, stagesHeard: ['tune', 'intonate']},
];

const card = await trySoundCard(48_000);
if (typeof card === 'string') {
	console.log(`skipped: ${card}`);
	process.exit(0);
}

const shown = (cents: readonly (number | undefined)[]) => cents.map(x => x?.toFixed(2) ?? 'slack').join(' ');
for (const {job, sampleRateHz, ...settings} of walks) {
	const ears = openLiveEars(card, sampleRateHz);
	const started = performance.now();
	const {story, readings, again, asked, heard} = await setUpByEar(
		{...defaultSheet(), job, practiceSeed: seed},
		ears.hear,
		settings,
	);
	ears.stop();
	const sizes = heard.map(({offCents}) => Math.abs(offCents));
	const guitar = truth(practiceGuitarOf(story)!);
	const fixed = (p: number) => quantile(sizes, p).toFixed(3);
	console.log(
		[
			`job ${job}, practice guitar ${seed}, recorded at ${sampleRateHz} Hz: ${readings} plucks heard, ${again} plucked again, ${asked} asked about, ${((performance.now() - started) / 60_000).toFixed(1)} min`,
			`  heard minus true, cents: median ${fixed(0.5)}, 95 % ${fixed(0.95)}, worst ${fixed(1)}`,
			`  the guitar in the end, strings 1 to 6, cents off: open ${shown(guitar.cents)}; fretted 12th less harmonic ${shown(guitar.fretted12ErrorCents)}`,
		].join('\n'),
	);
}

card.stop();
