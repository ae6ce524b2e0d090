import type {HeardTone} from '../../source/listening/estimate-tone.ts';
import {openStiffness} from '../../source/listening/tuner-difference.ts';
import {believedHz, type StringPlace, whichString} from '../../source/listening/which-string.ts';
import {centsBetween} from '../../source/music/pitch.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed, Story} from '../../source/session/facts.ts';
import {emptyJournal, type Journal, record} from '../../source/session/journal.ts';
import {performPractice, practiceGuitarOf} from '../../source/session/practice-world.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {stages} from '../../source/stages/index.ts';
import {practiceRateHz, practiceSound, semitonesUpOf, trueCentsOf} from './practice-sound.ts';

/** What a pair of ears makes of a recording that holds one pluck; undefined when it must be plucked again. */
export type Ears = (
	sound: {readonly samples: Float32Array; readonly sampleRateHz: number},
	hints: {readonly believedHz: readonly number[]},
) => Promise<HeardTone | undefined>;

export interface ByEar {
	readonly story: Story;
	/** Readings taken by ear, those plucked once more, and those where the string had to be asked. */
	readonly readings: number;
	readonly again: number;
	readonly asked: number;
	/** What was made of each pluck, and how far that was from the true pitch, cents. */
	readonly heard: readonly {readonly tone: HeardTone; readonly offCents: number}[];
}

type Read = Deed & {readonly type: 'PitchRead'};

/**
 * A set-up on the practice guitar in which simulated hands do what the stages
 * ask and every pitch is heard: its sound is made from the guitar's hidden
 * truth, the other strings ringing along, and given to the ears.
 *
 * @param stagesHeard Stages in which it is; the simulated tuner is read in the
 * others. All by default.
 */
export async function setUpByEar(
	sheet: InstrumentSheet,
	ears: Ears,
	{stagesHeard, most = 400}: {readonly stagesHeard?: readonly string[]; readonly most?: number} = {},
): Promise<ByEar> {
	let journal: Journal = record(emptyJournal, [{type: 'SheetFilled', sheet}], 0);
	const tally = {readings: 0, again: 0, asked: 0, heard: [] as {tone: HeardTone; offCents: number}[]};
	const asked: string[] = [];
	for (let tasks = 0; tasks < most; tasks++) {
		const bench = benchOf(journal.story);
		const stage = stages.find(s => s.isNeeded(bench) && !bench.passedStages.includes(s.id));
		if (!stage) return {story: journal.story, ...tally};
		const task = stage.task(bench);
		if (!task.practice) throw new Error(`${stage.id}, “${task.headline}”: nothing for the hands to do`);
		const done = performPractice(bench.story, task.practice);
		const isHeard = stagesHeard === undefined || stagesHeard.includes(stage.id);
		const deeds: Deed[] = [];
		for (const deed of done) {
			const before = record(journal, deeds, 0).story;
			deeds.push(isHeard && deed.type === 'PitchRead' ? await heardDeed(deed, before, ears, tally) : deed);
		}

		const decision = decide(deeds, stateOf(journal.story));
		if (!decision.ok) throw new Error(`${stage.id}, “${task.headline}”: ${decision.said}`);
		journal = record(journal, deeds, 1000 * tasks);
		const told = deeds.flatMap(deed => (deed.type === 'PitchRead' ? [deed.cents.toFixed(2)] : []));
		asked.push(`${stage.id}: ${task.headline} ${told.join(' ')}`);
	}

	throw new Error(`no end after ${most} tasks; the last:\n${asked.slice(-24).join('\n')}`);
}

/** The same reading as it was heard. */
async function heardDeed(
	deed: Read,
	story: Story,
	ears: Ears,
	tally: {readings: number; again: number; asked: number; heard: {tone: HeardTone; offCents: number}[]},
): Promise<Deed> {
	const guitar = practiceGuitarOf(story)!;
	const {strings} = benchOf(story);
	const places = strings.map(({string, targetHz, now}): StringPlace => ({string, targetHz, ...(now ? {now} : {})}));
	const sounded = {...deed, index: deed.string - 1};
	const semitonesUp = semitonesUpOf(sounded);
	const shownHz = strings[sounded.index]!.targetHz * 2 ** (semitonesUp / 12);
	for (let tries = 0; tries < 5; tries++) {
		if (tries > 0) tally.again++;
		const samples = practiceSound(guitar, sounded, [story.length, tally.readings, tries]);
		const tone = await ears({samples, sampleRateHz: practiceRateHz}, {believedHz: believedHz(places)});
		if (!tone) continue;
		const verdict = whichString(tone, places, {semitonesUp, asked: deed.string});
		if (verdict.kind === 'doubtful') tally.asked++;
		// The person knows what they did: another string or another way of playing was misheard, a surprising pitch was not.
		if (verdict.kind === 'doubtful' && verdict.why === 'played-otherwise') continue;
		if (verdict.kind === 'string' && verdict.string !== deed.string)
			throw new Error(`string ${deed.string} taken for ${verdict.string}`);
		const cents = centsBetween(tone.hz, shownHz);
		tally.readings++;
		tally.heard.push({tone, offCents: cents - trueCentsOf(guitar, sounded)!});
		const tunerCents = tone.periodTunerHz === undefined ? undefined : centsBetween(tone.periodTunerHz, shownHz);
		return {
			...deed,
			cents,
			entered: cents.toFixed(2),
			heard: {
				sdCents: tone.sdCents,
				stiffness: openStiffness(tone, semitonesUp),
				...(tunerCents === undefined ? {} : {tunerCents}),
			},
		};
	}

	throw new Error(`string ${deed.string} ${deed.how}: not heard in five plucks`);
}
