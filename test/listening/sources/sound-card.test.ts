import {afterAll, beforeAll, describe, expect, test} from 'vitest';
import {hear, hearEnd} from '../../../source/listening/hear.ts';
import {type HeardPluck, startListening} from '../../../source/listening/listening.ts';
import {foundRecorders, openRecorder} from '../../../source/listening/sources/recorder.ts';
import type {RecorderName} from '../../../source/listening/sources/recorders.ts';
import {centsBetween} from '../../../source/music/pitch.ts';
import {rngFrom} from '../../../source/numeric/rng.ts';
import {drawTake} from '../synthesis/take.ts';
import {trySoundCard, type VirtualSoundCard} from './virtual-sound-card.ts';

const card = await trySoundCard(48_000);
const why = typeof card === 'string' ? ` (${card})` : '';
afterAll(() => (typeof card === 'string' ? undefined : card.stop()));

interface Capture {
	readonly recorder: RecorderName;
	readonly sampleRateHz: number;
}
const captures: readonly Capture[] = [
	{recorder: 'parec', sampleRateHz: 44_100},
	{recorder: 'parec', sampleRateHz: 48_000},
	// These reach the card only where their own link to the sound server is installed.
	{recorder: 'arecord', sampleRateHz: 48_000},
	{recorder: 'sox', sampleRateHz: 44_100},
];

interface Recorded {
	readonly sampleRateHz: number;
	readonly blocks: readonly Float32Array[];
}

/** A recorder running: what it recorded, or the sentence it ended with. */
function openCapture({environment}: VirtualSoundCard, {recorder, sampleRateHz}: Capture) {
	const blocks: Float32Array[] = [];
	let recordedS = 0;
	let isOver = (_: number) => false;
	const opened = Promise.withResolvers<void>();
	const done = Promise.withResolvers<Recorded | string>();
	const source = openRecorder(
		{platform: process.platform, environment, sampleRateHz, only: recorder, patienceMs: 20_000},
		event => {
			if (event.kind === 'open') opened.resolve();
			if (event.kind === 'trouble') {
				opened.resolve();
				done.resolve(event.trouble.said);
			}

			if (event.kind !== 'samples') return;
			blocks.push(event.samples);
			recordedS += event.samples.length / sampleRateHz;
			if (!isOver(recordedS)) return;
			source.stop();
			done.resolve({sampleRateHz, blocks});
		},
	);
	return {
		opened: opened.promise,
		/** Records so much longer, then stops. */
		finish(moreS: number): Promise<Recorded | string> {
			const untilS = recordedS + moreS;
			isOver = s => s >= untilS;
			return done.promise;
		},
	};
}

function heardIn({sampleRateHz, blocks}: Recorded): readonly HeardPluck[] {
	let listening = startListening(sampleRateHz);
	const plucks: HeardPluck[] = [];
	for (const block of blocks) {
		const heard = hear(listening, block);
		listening = heard.listening;
		plucks.push(...heard.plucks);
	}

	return [...plucks, ...hearEnd(listening).plucks];
}

describe.skipIf(typeof card === 'string')(`through a virtual sound card${why}`, () => {
	const take = drawTake(rngFrom(21), {
		strings: 6,
		company: 'ringing along',
		spacingS: 1.5,
		most: 4,
		isClean: true,
	});
	let recorded: readonly (Recorded | string)[];
	// Played once, recorded by all at the same time.
	beforeAll(async () => {
		if (typeof card === 'string') return;
		const running = captures.map(capture => openCapture(card, capture));
		await Promise.all(running.map(r => r.opened));
		await card.play(take.samples, take.sampleRateHz);
		// What was played last is still on its way when the player ends.
		recorded = await Promise.all(running.map(r => r.finish(1.5)));
	});

	test.for(captures.map((capture, i) => ({...capture, i})))(
		'$recorder at $sampleRateHz samples a second: every pluck, at its pitch',
		({recorder, i}, {skip}) => {
			const isThere = foundRecorders({platform: process.platform, environment: process.env, only: recorder}).length > 0;
			skip(!isThere, `${recorder} is not installed`);
			const got = recorded[i]!;
			if (typeof got === 'string') {
				expect(recorder, got).not.toBe('parec');
				return skip(got);
			}

			const told = heardIn(got).filter(p => p.tone);
			expect(told).toHaveLength(take.plucks.length);
			for (const [k, {tone, verdict}] of told.entries()) {
				expect(Math.abs(centsBetween(tone!.hz, take.plucks[k]!.hz))).toBeLessThan(verdict === 'settled' ? 0.4 : 2);
			}
		},
	);
});
