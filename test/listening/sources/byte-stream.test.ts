import {mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {Readable} from 'node:stream';
import {afterAll, beforeAll, expect, test} from 'vitest';
import {WaveFile} from 'wavefile';
import {hear, hearEnd} from '../../../source/listening/hear.ts';
import {type HeardPluck, type Listening, startListening} from '../../../source/listening/listening.ts';
import {firstPartialHz, lawWithFirstPartial} from '../../../source/listening/partial-law.ts';
import {openStandardInput, openWavFile} from '../../../source/listening/sources/byte-stream.ts';
import type {SoundEvent, SoundListener, SoundSource} from '../../../source/listening/sources/sound-source.ts';
import {centsBetween} from '../../../source/music/pitch.ts';
import {onePluck} from '../synthesis/pluck.ts';

let folder: string;
beforeAll(() => {
	folder = mkdtempSync(path.join(tmpdir(), 'evenfloat-sound-'));
});
afterAll(() => rmSync(folder, {recursive: true, force: true}));

/** Everything a source tells until it ends or fails. */
function allOf(open: (listener: SoundListener) => SoundSource): Promise<readonly SoundEvent[]> {
	const events: SoundEvent[] = [];
	return new Promise(resolve => {
		open(event => {
			events.push(event);
			if (event.kind === 'end' || event.kind === 'trouble') resolve(events);
		});
	});
}

function plucksIn(events: readonly SoundEvent[]): readonly HeardPluck[] {
	let listening: Listening | undefined;
	const plucks: HeardPluck[] = [];
	for (const event of events) {
		if (event.kind === 'open') listening = startListening(event.sampleRateHz);
		if (event.kind !== 'samples') continue;
		const heard = hear(listening!, event.samples);
		listening = heard.listening;
		plucks.push(...heard.plucks);
	}

	return [...plucks, ...hearEnd(listening!).plucks];
}

const law = lawWithFirstPartial(196, 9e-5);
const made = onePluck({law, sampleRateHz: 44_100});
const whole = Array.from(made.samples, x => Math.round(x * 32_768));

test('a pluck in a WAV file is heard', async () => {
	const file = path.join(folder, 'pluck.wav');
	const wav = new WaveFile();
	wav.fromScratch(1, 44_100, '16', whole);
	writeFileSync(file, wav.toBuffer());
	const events = await allOf(listener => openWavFile(file, listener));
	expect(events[0]).toEqual({kind: 'open', sampleRateHz: 44_100, from: 'pluck.wav'});
	const plucks = plucksIn(events);
	expect(plucks.map(p => p.verdict)).toEqual(['settled']);
	expect(Math.abs(centsBetween(plucks[0]!.tone!.hz, firstPartialHz(law)))).toBeLessThan(0.2);
});

test('and raw on standard input', async () => {
	const bytes = Buffer.from(Int16Array.from(whole).buffer);
	const pieces = Array.from({length: Math.ceil(bytes.length / 777)}, (_, i) => bytes.subarray(777 * i, 777 * (i + 1)));
	const events = await allOf(listener => openStandardInput(Readable.from(pieces), 44_100, listener));
	const [pluck] = plucksIn(events);
	expect(Math.abs(centsBetween(pluck!.tone!.hz, firstPartialHz(law)))).toBeLessThan(0.2);
});

test('a file that is not there, and one that is not sound', async () => {
	const gone = await allOf(listener => openWavFile(path.join(folder, 'gone.wav'), listener));
	expect(gone).toMatchObject([
		{kind: 'trouble', trouble: {code: 'no-file', said: expect.stringContaining('gone.wav')}},
	]);
	const text = path.join(folder, 'letter.wav');
	writeFileSync(text, 'Dear all, this is no sound.');
	const letter = await allOf(listener => openWavFile(text, listener));
	expect(letter).toMatchObject([{kind: 'trouble', trouble: {code: 'not-sound'}}]);
	const empty = path.join(folder, 'empty.wav');
	writeFileSync(empty, '');
	expect(await allOf(listener => openWavFile(empty, listener))).toMatchObject([
		{kind: 'trouble', trouble: {code: 'not-sound'}},
	]);
});
