import {chmodSync, mkdtempSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import path from 'node:path';
import {afterEach, beforeEach, describe, expect, test} from 'vitest';
import {foundRecorders, openRecorder, type RecorderOptions} from '../../../source/listening/sources/recorder.ts';
import type {SoundEvent, SoundSource} from '../../../source/listening/sources/sound-source.ts';

/** A folder that is the whole search path, with recorders of our own making in it. */
let folder: string;
beforeEach(() => {
	folder = mkdtempSync(path.join(tmpdir(), 'evenfloat-recorders-'));
});
afterEach(() => rmSync(folder, {recursive: true, force: true}));

function install(name: string, body: string): void {
	const file = path.join(folder, name);
	writeFileSync(file, `#!${process.execPath}\n${body}\n`);
	chmodSync(file, 0o755);
}

const options = (more: Partial<RecorderOptions> = {}): RecorderOptions => ({
	platform: 'linux',
	environment: {PATH: folder},
	...more,
});

/** Events up to and including the first that satisfies `until`; the source is stopped then. */
async function eventsUntil(
	more: Partial<RecorderOptions>,
	until: (event: SoundEvent) => boolean,
): Promise<readonly SoundEvent[]> {
	const events: SoundEvent[] = [];
	let source: SoundSource | undefined;
	await new Promise<void>(resolve => {
		source = openRecorder(options(more), event => {
			events.push(event);
			if (until(event)) resolve();
		});
	});
	source!.stop();
	return events;
}

const isTrouble = (event: SoundEvent) => event.kind === 'trouble';
const troubleOf = (events: readonly SoundEvent[]) => {
	const last = events.at(-1);
	return last?.kind === 'trouble' ? last.trouble : undefined;
};

/** Endless sound: half of full scale. */
const sounding = 'setInterval(() => process.stdout.write(Buffer.alloc(960, Buffer.from([0, 64]))), 10);';
const failing = (words: string) => `process.stderr.write(${JSON.stringify(words)}); process.exitCode = 1;`;

test('only what is there is found, best first', () => {
	install('arecord', sounding);
	install('parec', sounding);
	expect(foundRecorders(options())).toEqual(['parec', 'arecord']);
	expect(foundRecorders(options({only: 'arecord'}))).toEqual(['arecord']);
	expect(foundRecorders(options({platform: 'darwin'}))).toEqual([]);
	expect(foundRecorders(options({platform: 'sunos'}))).toEqual([]);
});

test('sound comes from the best of them', async () => {
	install('arecord', sounding);
	const events = await eventsUntil({sampleRateHz: 44_100}, e => e.kind === 'samples');
	expect(events[0]).toEqual({kind: 'open', sampleRateHz: 44_100, from: 'arecord'});
	expect(events[1]?.kind === 'samples' && [...events[1].samples].every(x => x === 0.5)).toBe(true);
});

test('one that fails at once gives way to the next', async () => {
	install('parec', failing('Connection failure: Connection refused'));
	install('arecord', sounding);
	const events = await eventsUntil({}, e => e.kind === 'samples');
	expect(events[0]).toMatchObject({kind: 'open', from: 'arecord'});
});

describe('when nothing works, one sentence says why', () => {
	test('no program', async () => {
		const trouble = troubleOf(await eventsUntil({}, isTrouble));
		expect(trouble).toMatchObject({code: 'no-program', isFatal: true});
		expect(trouble?.said).toContain('arecord');
	});

	test.each([
		['Stream error: No such entity', 'no-device'],
		['audio open error: Permission denied', 'refused'],
		['audio open error: Device or resource busy', 'busy'],
		['Connection failure: Connection refused', 'no-sound-server'],
		['', 'stopped'],
	])('"%s"', async (words, code) => {
		install('arecord', failing(words));
		expect(troubleOf(await eventsUntil({}, isTrouble))?.code).toBe(code);
	});

	test('of several complaints the one that helps most', async () => {
		install('parec', failing('Connection failure: Connection refused'));
		install('arecord', failing('audio open error: Permission denied'));
		install('sox', failing('sox FAIL: no default audio device configured'));
		expect(troubleOf(await eventsUntil({}, isTrouble))?.code).toBe('refused');
	});

	test('a recorder that runs and says nothing', async () => {
		install('arecord', 'setInterval(() => {}, 1000);');
		const trouble = troubleOf(await eventsUntil({patienceMs: 300}, isTrouble));
		expect(trouble?.code).toBe('nothing-arrives');
	});

	test('one that stops later', async () => {
		install('arecord', 'process.stdout.write(Buffer.alloc(960));');
		install('sox', sounding);
		const events = await eventsUntil({}, isTrouble);
		expect(events.map(e => e.kind)).toEqual(['open', 'samples', 'trouble']);
		expect(troubleOf(events)?.code).toBe('stopped');
	});
});

test('lost samples are passed on', async () => {
	install(
		'arecord',
		`${sounding} setTimeout(() => process.stderr.write('overrun!!! (at least 12.3 ms long)\\n'), 100);`,
	);
	const events = await eventsUntil({}, e => e.kind === 'lost');
	expect(events.some(e => e.kind === 'samples')).toBe(true);
});

test('after stopping nothing more is told, and the recorder is gone', async () => {
	const mark = path.join(folder, 'stopped');
	install(
		'arecord',
		`${sounding} process.on('SIGTERM', () => { require('node:fs').writeFileSync(${JSON.stringify(mark)}, ''); process.exit(); });`,
	);
	let isStopped = false;
	let late = 0;
	await new Promise<void>(resolve => {
		const source = openRecorder(options(), event => {
			if (isStopped) late++;
			if (event.kind !== 'samples' || isStopped) return;
			isStopped = true;
			source.stop();
			resolve();
		});
	});
	await expect.poll(() => foundMark(mark)).toBe(true);
	expect(late).toBe(0);
});

function foundMark(file: string): boolean {
	try {
		chmodSync(file, 0o644);
		return true;
	} catch {
		return false;
	}
}
