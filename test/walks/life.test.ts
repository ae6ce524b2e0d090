import {execFileSync, spawnSync} from 'node:child_process';
import {mkdirSync} from 'node:fs';
import path from 'node:path';
import {describe, expect, test} from 'vitest';
import {entryCount} from '../../source/session/journal.ts';
import {openStore} from '../../source/storage/store.ts';
import {bundleTo, builtProgram, newFolder, nodePath, type Program, startProgram} from './harness.ts';

/** Up to the first question of a new set-up, one answer stored. */
async function begun(
	folder: string,
	size: {columns?: number; rows?: number; environment?: Record<string, string>} = {},
): Promise<Program> {
	const program = await startProgram({folder, ...size});
	await program.until('New set-up');
	program.press('enter');
	await program.until('How many strings');
	program.press('enter');
	await program.until('Which strings');
	return program;
}

/** What every way out must leave behind: the normal screen, its cursor, and where the set-up is. */
function isSane(program: Program, folder: string): void {
	expect(program.isAlternateScreen()).toBe(false);
	expect(program.screen().replaceAll('\n', '')).toContain(folder);
	expect(program.screen()).toMatch(/evenfloat open \d{6}-\w{4}/);
	const written = program.written();
	expect(written.lastIndexOf('\u001B[?25h'), 'cursor shown last').toBeGreaterThan(written.lastIndexOf('\u001B[?25l'));
	expect(written.lastIndexOf('\u001B[?2004l'), 'paste mode off last').toBeGreaterThan(
		written.lastIndexOf('\u001B[?2004h'),
	);
}

describe('leaving', () => {
	test.each([
		['q would be text here, so Ctrl-C', ['ctrl+c'], 0],
		['Ctrl-C while something is typed', ['1', '0', 'ctrl+c'], 0],
	] as const)('%s', async (_, keys, exitCode) => {
		const folder = newFolder();
		const program = await begun(folder);
		expect(program.isAlternateScreen()).toBe(true);
		program.press(...keys);
		expect(await program.ended).toMatchObject({exitCode});
		isSane(program, folder);
	});

	test('q from the first screen says nothing', async () => {
		const folder = newFolder();
		const program = await startProgram({folder});
		await program.until('New set-up');
		program.press('q');
		expect(await program.ended).toMatchObject({exitCode: 0});
		expect(program.screen().trim()).toBe('');
	});

	test.each([
		['SIGTERM', 143],
		['SIGHUP', 129],
		['SIGINT', 130],
	] as const)('%s leaves the terminal sane and ends as shells expect', async (signal, exitCode) => {
		const folder = newFolder();
		const program = await begun(folder);
		program.signal(signal);
		expect(await program.ended).toMatchObject({exitCode});
		isSane(program, folder);
	});

	test('a fault of its own leaves the terminal sane and says so without a stack', async () => {
		const folder = newFolder();
		const cache = path.resolve(`node_modules/.cache/evenfloat/faulty-${process.pid}`);
		mkdirSync(cache, {recursive: true});
		const entry = path.join(cache, 'faulty.mjs');
		await bundleTo('test/walks/faulty-program.ts', entry);
		for (const key of ['boom\r', '>', 'delayed\r', 'promised\r']) {
			const program = await startProgram({folder, entry});
			await program.until('What is the guitar called');
			program.type('Blue one\r');
			await program.until('Enter go on');
			program.press('enter');
			await program.until('Turn string 1');
			program.type(key);
			expect(await program.ended).toMatchObject({exitCode: 1});
			expect(program.isAlternateScreen()).toBe(false);
			expect(program.screen()).toContain('a fault of its own: the bench broke');
			expect(program.screen()).toContain('evenfloat open');
			expect(program.screen()).not.toMatch(/\n\s+at /);
		}

		const deaf = await startProgram({folder, entry, environment: {EVENFLOAT_TEST_EARS: 'broken'}});
		expect(await deaf.ended).toMatchObject({exitCode: 1});
		expect(deaf.isAlternateScreen()).toBe(false);
		expect(deaf.screen()).toContain('a fault of its own: the bench broke');
	});
});

// A limit on the size of files answers a write as a full disk does.
test.skipIf(process.platform === 'win32')(
	'a disk that is full: said, nothing lost that was stored, q still leaves',
	async () => {
		const folder = newFolder();
		const program = await startProgram({
			folder,
			command: ['sh', '-c', `ulimit -f 3; exec ${nodePath} ${await builtProgram()} practice 7`],
		});
		await program.until('How many strings');
		let stored = 0;
		for (let keys = 0; !program.screen().includes('no room left'); keys++) {
			expect(keys).toBeLessThan(60);
			const before = program.screen();
			program.press(' ');
			await program.until(screen => screen !== before);
			if (!program.screen().includes('no room left')) stored += 1;
		}

		expect(stored).toBeGreaterThan(3);
		expect(program.screen()).toContain('Not stored.');
		expect(program.screen().replaceAll(/\s+/g, ' ')).toContain('--store FOLDER');
		program.press('ctrl+c');
		expect(await program.ended).toMatchObject({exitCode: 0});
		isSane(program, folder);
		const opened = openStore({folder, now: () => Date.now()});
		if (!opened.ok) throw new Error(opened.said);
		const [kept] = opened.store.list();
		const loaded = opened.store.load(kept!.id);
		expect(loaded.ok && entryCount(loaded.journal.story)).toBe(stored + 1);
	},
);

test.skipIf(process.platform !== 'linux')(
	'a home that cannot be written: one sentence that says where and what to do',
	async () => {
		const program = await startProgram({
			folder: newFolder(),
			environment: {HOME: '/proc', EVENFLOAT_STORE: ''},
		});
		expect(await program.ended).toMatchObject({exitCode: 1});
		const said = program.screen().replaceAll('\n', '').trim();
		expect(said).toMatch(/\/proc\/\.config\/evenfloat.*--store FOLDER/);
		expect(said.length).toBeLessThan(300);
	},
);

describe('kill -9', () => {
	test('loses nothing: the next start offers to go on at the same place', async () => {
		const folder = newFolder();
		const program = await begun(folder);
		program.type('elevens\r');
		await program.until('Which notes');
		program.signal('SIGKILL');
		await program.ended;
		const again = await startProgram({folder});
		await again.until('Go on: Guitar');
		again.press('enter');
		await again.until('Which notes');
		again.press('ctrl+u');
		await again.until('Which strings');
	});
});

describe('under a shell', () => {
	/** A shell with job control in the pseudo-terminal, the program started from its prompt. */
	async function fromShell(folder: string) {
		const shell = await startProgram({
			folder,
			command: ['bash', '--norc', '--noprofile', '-i'],
			environment: {PS1: 'bench> ', TERM: 'xterm-256color'},
		});
		await shell.until('bench>');
		shell.type(`${nodePath} ${await builtProgram()}\r`);
		await shell.until('New set-up');
		shell.press('enter');
		await shell.until('How many strings');
		shell.press('enter');
		await shell.until('Which strings');
		return shell;
	}

	const modes = (screen: string) => /-?icanon|-?echo\b/g[Symbol.match](screen);

	test('Ctrl-Z stops it on the normal screen, fg goes on where it was', async () => {
		const folder = newFolder();
		const shell = await fromShell(folder);
		shell.press('ctrl+z');
		await shell.until(screen => screen.includes('Stopped') && screen.trimEnd().endsWith('bench>'));
		expect(shell.isAlternateScreen()).toBe(false);
		shell.type('stty -a\r');
		const settings = await shell.until(screen => screen.includes('icanon'));
		expect(modes(settings)).toEqual(expect.arrayContaining(['icanon', 'echo']));
		shell.type('fg\r');
		await shell.until(screen => shell.isAlternateScreen() && screen.includes('Which strings'));
		shell.type('nines\r');
		await shell.until('Which notes');
	});

	test('leaving gives the terminal back as it was', async () => {
		const folder = newFolder();
		const shell = await fromShell(folder);
		shell.press('ctrl+c');
		await shell.until(screen => screen.includes('evenfloat open') && screen.trimEnd().endsWith('bench>'));
		shell.type('stty -a\r');
		const settings = await shell.until(screen => screen.includes('icanon'));
		expect(modes(settings)).toEqual(expect.arrayContaining(['icanon', 'echo']));
		expect(modes(settings)).not.toContain('-echo');
	});

	test('SIGTERM gives it back as well', async () => {
		const folder = newFolder();
		const shell = await fromShell(folder);
		const pid = Number(
			execFileSync('pgrep', ['-P', String(shell.pid)], {encoding: 'utf8'})
				.trim()
				.split('\n')
				.at(-1),
		);
		process.kill(pid, 'SIGTERM');
		await shell.until(screen => screen.includes('evenfloat open') && screen.trimEnd().endsWith('bench>'));
		shell.type('stty -a; echo code=$?\r');
		const settings = await shell.until(screen => screen.includes('icanon') && /code=\d/.test(screen));
		expect(modes(settings)).toEqual(expect.arrayContaining(['icanon', 'echo']));
	});
});

describe('Ctrl-Z without a shell that waits', () => {
	test('comes back by itself, redrawn', async () => {
		const folder = newFolder();
		const program = await begun(folder);
		program.press('ctrl+z');
		await program.until(() => program.written().includes('\u001B[?1049l'));
		await program.until(screen => program.isAlternateScreen() && screen.includes('Which strings'));
		program.type('nines\r');
		await program.until('Which notes');
	});
});

describe('without a terminal', () => {
	test('at the input: one sentence that names --plain', async () => {
		const {status, stderr, stdout} = spawnSync(nodePath, [await builtProgram()], {
			env: {...process.env, EVENFLOAT_STORE: newFolder()},
			input: '',
			encoding: 'utf8',
		});
		expect(status).toBe(1);
		expect(stdout).toBe('');
		expect(stderr).toMatch(/^The input is not a terminal.*--plain.*\n$/);
	});

	test('at the output: the same', async () => {
		const shell = await startProgram({
			folder: newFolder(),
			command: ['sh', '-c', `${nodePath} ${await builtProgram()} | cat`],
		});
		await shell.ended;
		expect(shell.screen()).toMatch(/^The output is not a terminal/);
		expect(shell.screen()).toContain('--plain');
	});
});

describe('an old Node', () => {
	test('gets one sentence', async () => {
		const entry = await builtProgram();
		// The launcher looks at the version only; the test says another one to it.
		const lie = "Object.defineProperty(process.versions, 'node', {value: '18.19.0'});";
		const program = await startProgram({
			folder: newFolder(),
			entry: '--import',
			arguments: [`data:text/javascript,${encodeURIComponent(lie)}`, entry],
		});
		expect(await program.ended).toMatchObject({exitCode: 1});
		expect(program.screen().replaceAll('\n', '').trim()).toMatch(
			/^evenfloat needs Node 22 or newer; this is Node 18\.19\.0\. .*\.$/,
		);
	});
});
