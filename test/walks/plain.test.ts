import {spawnSync} from 'node:child_process';
import {existsSync, readdirSync} from 'node:fs';
import path from 'node:path';
import {describe, expect, test} from 'vitest';
import {builtProgram, newFolder, nodePath, type Program, startProgram} from './harness.ts';

/** Line by line in a terminal, the first answer of a new set-up stored. */
async function begun(folder: string): Promise<Program> {
	const program = await startProgram({folder, arguments: ['--plain']});
	await program.until('New set-up');
	program.type('1\r');
	await program.until('How many strings');
	program.type('6\r');
	await program.until('Which strings');
	return program;
}

const locks = (folder: string) => readdirSync(path.join(folder, 'setups')).filter(name => name.endsWith('.lock'));

describe('line by line, told to end', () => {
	test.each([
		['Ctrl-C', 130, (program: Program) => program.press('ctrl+c')],
		['SIGTERM', 143, (program: Program) => program.signal('SIGTERM')],
		['SIGHUP', 129, (program: Program) => program.signal('SIGHUP')],
	] as const)('%s: says where everything is, lets the set-up go', async (_, exitCode, end) => {
		const folder = newFolder();
		const program = await begun(folder);
		expect(locks(folder)).toHaveLength(1);
		end(program);
		expect(await program.ended).toMatchObject({exitCode});
		expect(program.screen().replaceAll('\n', '')).toContain(folder);
		expect(program.screen()).toMatch(/evenfloat open \d{6}-\w{4}/);
		expect(program.screen()).not.toMatch(/\n\s+at /);
		expect(locks(folder)).toEqual([]);
	});

	test('the end of the input (Ctrl-D): the same, and a status that says it was not finished', async () => {
		const folder = newFolder();
		const program = await begun(folder);
		program.press('ctrl+d');
		expect(await program.ended).toMatchObject({exitCode: 1});
		expect(program.screen()).toContain('The input ended here.');
		expect(program.screen()).toMatch(/evenfloat open \d{6}-\w{4}/);
		expect(locks(folder)).toEqual([]);
	});

	test('what was answered is there the next time', async () => {
		const folder = newFolder();
		const program = await begun(folder);
		program.press('ctrl+c');
		await program.ended;
		const again = await startProgram({folder, arguments: ['open', '--plain']});
		await again.until('Which strings');
		again.type('q\r');
		await again.until('Read');
		again.type(':q\r');
		expect(await again.ended).toMatchObject({exitCode: 0});
	});
});

test('a pipe: one prompt a line, everything stored, the status says that it was not finished', async () => {
	const folder = newFolder();
	const {status, stdout, stderr} = spawnSync(nodePath, [await builtProgram(), '--plain'], {
		env: {PATH: process.env.PATH, HOME: folder, LANG: 'C.UTF-8', EVENFLOAT_STORE: folder},
		input: '1\n6\ntens\n',
		encoding: 'utf8',
	});
	expect(stderr).toBe('');
	expect(status).toBe(1);
	expect(stdout.split('\n').filter(line => line.endsWith('>'))).toHaveLength(4);
	expect(stdout).toContain('The input ended here.');
	expect(stdout).not.toContain('\u001B');
	expect(locks(folder)).toEqual([]);
});

test('a reader that has seen enough is no fault', async () => {
	const folder = newFolder();
	const program = await builtProgram();
	for (const rest of ['--help', 'list', '--plain', 'practice 7 --plain']) {
		const shell = `yes '' | head -50 | ${nodePath} ${program} ${rest} | head -1`;
		const {stderr} = spawnSync('sh', ['-c', shell], {
			env: {PATH: process.env.PATH, HOME: folder, LANG: 'C.UTF-8', EVENFLOAT_STORE: folder},
			encoding: 'utf8',
		});
		expect(stderr, rest).toBe('');
	}

	expect(existsSync(path.join(folder, 'setups'))).toBe(true);
	expect(locks(folder)).toEqual([]);
});
