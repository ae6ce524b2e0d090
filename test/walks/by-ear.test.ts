import {execFileSync} from 'node:child_process';
import {existsSync, readFileSync, writeFileSync} from 'node:fs';
import {open} from 'node:fs/promises';
import path from 'node:path';
import {expect, onTestFinished, test} from 'vitest';
import {WaveFile} from 'wavefile';
import {lawWithFirstPartial} from '../../source/listening/partial-law.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import type {Fact} from '../../source/session/facts.ts';
import {openStore} from '../../source/storage/store.ts';
import {hzOf} from '../helpers/ears.ts';
import {trySoundCard} from '../listening/sources/virtual-sound-card.ts';
import {render} from '../listening/synthesis/scene.ts';
import {drawTone} from '../listening/synthesis/tone.ts';
import {builtProgram, newFolder, nodePath, type Program, startProgram} from './harness.ts';
import {answer, asked} from './person.ts';

const sampleRateHz = 48_000;
const spacingS = 1.7;

/** Plucks one after the other, each damped before the next, as a recorder writes them: 16 bits. */
function take(plucks: readonly {readonly hz: number; readonly stiffness: number}[]): Int16Array {
	const rng = rngFrom(8);
	const tones = plucks.map(({hz, stiffness}, at) => {
		const startS = 0.5 + at * spacingS;
		return {tone: drawTone(rng, lawWithFirstPartial(hz, stiffness), 0.08), startS, endS: startS + spacingS - 0.1};
	});
	const durationS = 0.7 + plucks.length * spacingS;
	const {samples} = render(rng, {sampleRateHz, durationS, tones, noise: 0.001});
	return Int16Array.from(samples, x => Math.round(32_767 * x));
}

function wavIn(folder: string, samples: Int16Array): string {
	const wav = new WaveFile();
	wav.fromScratch(1, sampleRateHz, '16', Array.from(samples));
	const file = path.join(folder, 'take.wav');
	writeFileSync(file, wav.toBuffer());
	return file;
}

const openPlucks = [1, 2, 3, 4, 5, 6].map(string => ({hz: hzOf(string, -5 * string), stiffness: 6e-5}));

/** Enter at every question until a pitch is asked for. */
async function untilPluck(program: Program, screen: string): Promise<void> {
	let now = screen;
	for (let keys = 0; !/Pluck string 1|string 1 \(E4\) heard/.test(now); keys++) {
		expect(keys, `still at: ${asked(now)}`).toBeLessThan(40);
		now = await answer(program, '\r');
	}
}

function readingsIn(folder: string): readonly (Fact & {type: 'PitchRead'})[] {
	const opened = openStore({folder, now: () => Date.now()});
	if (!opened.ok) throw new Error(opened.said);
	const loaded = opened.store.load(opened.store.list()[0]!.id);
	if (!loaded.ok) throw new Error(loaded.said);
	return loaded.journal.story.filter((fact): fact is Fact & {type: 'PitchRead'} => fact.type === 'PitchRead');
}

/** All six, each within a fifth of a cent of the truth (the listening benchmark's aim), with what the fit says of it. */
function expectAllSix(folder: string): void {
	const readings = readingsIn(folder);
	expect(readings.map(({string}) => string)).toEqual([1, 2, 3, 4, 5, 6]);
	for (const {string, cents, heard} of readings) {
		expect(Math.abs(cents + 5 * string), `string ${string}, cents`).toBeLessThan(0.2);
		expect(heard!.sdCents).toBeLessThan(0.3);
	}
}

test('a recording reads all strings; keys are answered meanwhile, undo takes a reading back', async () => {
	const folder = newFolder();
	const file = wavIn(folder, take(openPlucks));
	const program = await startProgram({folder, arguments: ['--hear', file]});
	await program.until('New set-up');
	program.press('enter');
	await untilPluck(program, await program.until('How many strings'));
	// The help opens and closes while the thread listens.
	program.press('?');
	await program.until('takes what sounds now');
	program.press('?');
	const screen = await program.until(/string 6 \(E2\) heard −30\.\d cents/);
	expect(screen).toMatch(/ear .*heard string 6: −30\.\d ±0\.\d/);
	for (const [string, note] of ['E4', 'B3', 'G3', 'D3', 'A2', 'E2'].entries())
		expect(screen).toMatch(
			new RegExp(`${string + 1} ${note} .* −${5 * (string + 1)}\\.0 |${string + 1} ${note} .*new`),
		);
	expectAllSix(folder);
	program.press('u');
	await program.until(/Taken back: string 6 \(E2\) heard −30\.\d cents/);
	program.press('r', 'tab');
	await program.until(now => !now.includes(' ear '));
	program.press('q');
	expect((await program.ended).exitCode).toBe(0);
	expectAllSix(folder);
}, 120_000);

test('sound on standard input, keys from the terminal: a file waits for its questions', async () => {
	const folder = newFolder();
	const file = wavIn(folder, take(openPlucks));
	const script = `"${nodePath}" "${await builtProgram()}" --hear - < "${file}"`;
	const program = await startProgram({folder, command: ['/bin/sh', '-c', script]});
	await program.until('New set-up');
	program.press('enter');
	await untilPluck(program, await program.until('How many strings'));
	await program.until(/string 6 \(E2\) heard/);
	program.press('q');
	await program.ended;
	expectAllSix(folder);
}, 120_000);

test('line by line, raw samples through a pipe: what was heard is printed, what is typed goes on', async () => {
	const folder = newFolder();
	const pipe = path.join(folder, 'pipe');
	execFileSync('mkfifo', [pipe]);
	const script = `cat "${pipe}" | "${nodePath}" "${await builtProgram()}" --plain --hear -`;
	const program = await startProgram({folder, command: ['/bin/sh', '-c', script], columns: 100, rows: 60});
	// Opens once somebody reads.
	const sound = await open(pipe, 'w');
	await program.until('New set-up');
	program.type('1\r');
	await program.until('How many strings');
	for (let lines = 0; !program.written().includes('Pluck string 1'); lines++) {
		expect(lines).toBeLessThan(40);
		const {length} = program.written();
		program.type('\r');
		await program.until(() => /\)>\s*$/.test(program.written().slice(length)));
	}

	program.type('-5\r');
	await program.until('string 1 (E4) read −5.0 cents');
	// Live sound is not kept: it is sent now that it is asked for.
	await sound.write(Buffer.from(take(openPlucks.slice(1, 2)).buffer));
	await program.until(/heard string 2: −\d+\.\d ±0\.\d/);
	await program.until(/string 2 \(B3\) heard −(9\.[89]|10\.[0-2]) cents/);
	program.type('q\r');
	await program.until('evenfloat open');
	await sound.close();
	await program.ended;
	const readings = readingsIn(folder);
	expect(readings.map(({string, heard}) => [string, heard !== undefined])).toEqual([
		[1, false],
		[2, true],
	]);
}, 120_000);

test('no program that records: one sentence, and typing goes on', async () => {
	const folder = newFolder();
	const program = await startProgram({folder, environment: {PATH: folder}, columns: 100});
	await program.until('New set-up');
	program.press('enter');
	await untilPluck(program, await program.until('How many strings'));
	program.press('tab');
	await program.until('No program that records sound was found');
	program.type('-12\r');
	await program.until('string 1 (E4) read −12.0 cents');
}, 120_000);

test('a recording that is not there: one sentence, and typing goes on', async () => {
	const folder = newFolder();
	const program = await startProgram({folder, arguments: ['--hear', 'gone.wav'], columns: 100});
	await program.until('New set-up');
	program.press('enter');
	const screen = await program.until('cannot be opened');
	expect(screen).toContain('gone.wav');
	await answer(program, '\r');
}, 120_000);

// Real sound in real time: another program may tear holes into it, which is no fault of the one that listens.
const heardLive = {retry: 2, timeout: 120_000} as const;

test(
	'live, through a virtual sound card: plucks are read as they are played, and the recorder is gone in the end',
	heardLive,
	async ({skip}) => {
		const card = await trySoundCard(sampleRateHz);
		if (typeof card === 'string') return skip(card);
		onTestFinished(() => card.stop());
		const folder = newFolder();
		const environment = Object.fromEntries(
			['PULSE_SERVER', 'PULSE_RUNTIME_PATH', 'XDG_RUNTIME_DIR'].map(name => [name, card.environment[name] ?? '']),
		);
		const program = await startProgram({folder, environment, arguments: ['--hear', 'live:parec:guitar.monitor']});
		await program.until('New set-up');
		program.press('enter');
		await untilPluck(program, await program.until('How many strings'));
		await program.until(/ear .*pluck string 1/);
		const played = Float32Array.from(take(openPlucks), x => x / 32_768);
		await card.play(played, sampleRateHz);
		await program.until(/string 6 \(E2\) heard/);
		const recorder = childrenOf(program.pid).find(({name}) => name === 'parec');
		expect(recorder).toBeDefined();
		program.press('q');
		expect((await program.ended).exitCode).toBe(0);
		await expect.poll(() => existsSync(`/proc/${recorder!.pid}/exe`)).toBe(false);
		expectAllSix(folder);
	},
);

/** Linux keeps a list; the sound card is there on Linux only. */
function childrenOf(pid: number): readonly {readonly pid: string; readonly name: string}[] {
	const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim().split(' ').filter(Boolean);
	return children.map(child => ({pid: child, name: readFileSync(`/proc/${child}/comm`, 'utf8').trim()}));
}
