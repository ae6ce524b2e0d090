import {spawnSync} from 'node:child_process';
import {writeFileSync} from 'node:fs';
import path from 'node:path';
import {expect, test} from 'vitest';
import manifest from '../../package.json' with {type: 'json'};
import {builtProgram, newFolder, nodePath} from './harness.ts';

/** The built program, not at a terminal. */
async function run(folder: string, given: readonly string[], input = '') {
	const {status, stdout, stderr} = spawnSync(nodePath, [await builtProgram(), ...given], {
		env: {PATH: process.env.PATH, HOME: folder, LANG: 'C.UTF-8', EVENFLOAT_STORE: folder},
		input,
		encoding: 'utf8',
	});
	expect(`${stdout}${stderr}`).not.toMatch(/\n\s+at /);
	return {status, stdout, stderr};
}

test('a set-up is made, listed, exported, imported elsewhere, and gone on with', async () => {
	const folder = newFolder();
	expect(await run(folder, ['list'])).toEqual({
		status: 0,
		stdout: `No set-ups are kept in ${folder}\n`,
		stderr: '',
	});
	// The simulated hands as far as they come in thirty lines; then the input ends.
	const made = await run(folder, ['practice', '7', '--plain'], ':p\n'.repeat(30));
	expect(made.status).toBe(1);
	expect(made.stdout).toContain('The input ended here.');

	const listed = await run(folder, ['list']);
	expect(listed.status).toBe(0);
	const [, id] =
		/^(\d{6}-\w{4}) {2}\d{4}-\d\d-\d\d {2}at \S+ +Practice guitar \(practice\)\n$/.exec(listed.stdout) ?? [];
	expect(id).toBeDefined();

	const exported = await run(folder, ['export', 'practice guitar']);
	expect(exported).toMatchObject({status: 0, stderr: ''});
	expect(() => JSON.parse(exported.stdout)).not.toThrow();

	const other = newFolder();
	const file = path.join(other, 'guitar.json');
	writeFileSync(file, exported.stdout);
	expect(await run(other, ['import', file])).toMatchObject({status: 0, stderr: ''});
	expect((await run(other, ['list'])).stdout).toBe(listed.stdout);
	const third = newFolder();
	expect(await run(third, ['import', '-'], exported.stdout)).toMatchObject({status: 0});
	expect((await run(third, ['export', 'Practice guitar'])).status).toBe(0);

	// Where it was left is what is asked next.
	const lastAsked = made.stdout.split('\n').findLast(line => line.endsWith('>'));
	const again = await run(other, ['open', id!, '--plain']);
	expect(again.stdout.split('\n').findLast(line => line.endsWith('>'))).toBe(lastAsked);
	expect((await run(other, ['open', '--plain'])).status).toBe(1);
	expect((await run(other, ['open', id!, '--plain'], 'q\n:q\n')).status).toBe(0);
	expect((await run(other, ['history', 'Practice guitar'])).status).toBe(0);

	// The same seed is the same guitar: the same first reading.
	const twin = await run(newFolder(), ['practice', '7', '--plain'], ':p\n'.repeat(30));
	const readings = (text: string) => text.split('\n').filter(line => / read [−+0-9]/.test(line));
	expect(readings(made.stdout).length).toBeGreaterThan(3);
	expect(readings(twin.stdout)).toEqual(readings(made.stdout));
});

test.each<[string[], number, RegExp]>([
	[['--version'], 0, new RegExp(`^${manifest.version.replaceAll('.', '\\.')}\n$`)],
	[['--help'], 0, /Words\n {2}open[\s\S]*Options\n[\s\S]*Exit codes/],
	[['--sotre', 'x'], 2, /Unknown option --sotre\. Did you mean: evenfloat --store/],
	[['lst'], 2, /Unknown word lst\. Did you mean: evenfloat list/],
	[['practice', 'seven'], 2, /SEED: read seven; allowed is a whole number/],
	[['open', 'nothing-here'], 1, /There is no set-up nothing-here .*evenfloat list shows what is kept\./],
	[['open'], 1, /No unfinished set-up is kept in .*Start one with: evenfloat/],
	[['export', 'Nobody’s'], 1, /No guitar is called Nobody’s\./],
	[['history', 'x'], 1, /No guitar is called x\./],
	[['import', 'not-there.json'], 1, /not-there\.json cannot be read/],
	[['--store', '/dev/null/x', 'list'], 1, /\/dev\/null\/x/],
	[[], 1, /--plain/],
])('%j ends with %d and says why', async (given, status, said) => {
	const ended = await run(newFolder(), given);
	expect(ended.status).toBe(status);
	expect(status === 0 ? ended.stdout : ended.stderr).toMatch(said);
	expect(status === 0 ? ended.stderr : ended.stdout).toBe('');
});

test.each(['', 'no JSON', '{}', '[]', '{"format":"evenfloat-guitar","version":999}'])(
	'%j is no guitar: refused in a sentence, nothing stored',
	async text => {
		const folder = newFolder();
		const {status, stderr} = await run(folder, ['import', '-'], text);
		expect(status).toBe(1);
		expect(stderr).toContain('Nothing was stored.');
		expect((await run(folder, ['list'])).stdout).toContain('No set-ups are kept');
	},
);
