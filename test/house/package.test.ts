import {execFileSync} from 'node:child_process';
import {cpSync, mkdirSync, readdirSync, readFileSync} from 'node:fs';
import path from 'node:path';
import {expect, test} from 'vitest';
import {temporaryFolder} from '../helpers/temporary.ts';
import {newFolder, nodePath, startProgram} from '../walks/harness.ts';

/** The system's own command, in a folder that knows nothing of this one, and no network. */
function npm(folder: string, ...rest: readonly string[]): string {
	return execFileSync('npm', [...rest, '--offline', '--no-audit', '--no-fund'], {
		cwd: folder,
		encoding: 'utf8',
		env: {...process.env, npm_config_cache: path.join(folder, 'empty-cache')},
		stdio: ['ignore', 'pipe', 'ignore'],
	});
}

/** What would be published, built anew: the built program in this folder may be another test's. */
async function packed(): Promise<string> {
	const folder = temporaryFolder();
	for (const file of ['package.json', 'README.md', 'LICENSE']) cpSync(file, path.join(folder, file));
	mkdirSync(path.join(folder, 'dist'));
	const builder = (await import(path.resolve('.build/program.mjs'))) as {build(folder: string): Promise<void>};
	await builder.build(path.join(folder, 'dist'));
	npm(folder, 'pack', '--ignore-scripts');
	return path.join(folder, readdirSync(folder).find(name => name.endsWith('.tgz'))!);
}

test('the packed program installs in an empty folder, needs nothing else, and runs with one command', async () => {
	const tarball = await packed();
	const folder = newFolder();
	npm(folder, 'init', '--yes');
	npm(folder, 'install', tarball);
	expect(readdirSync(path.join(folder, 'node_modules')).filter(name => !name.startsWith('.'))).toEqual(['evenfloat']);
	const inside = path.join(folder, 'node_modules', 'evenfloat');
	expect(readdirSync(inside).toSorted()).toEqual(['LICENSE', 'README.md', 'dist', 'package.json']);
	const notices = readFileSync(path.join(inside, 'dist', 'THIRD-PARTY-NOTICES.txt'), 'utf8');
	for (const name of ['ink', 'react', 'yoga-layout', 'ml-matrix'])
		expect(notices).toMatch(new RegExp(`^${name} \\d.*\\((MIT|ISC)\\)$`, 'm'));

	const program = await startProgram({
		folder,
		command: ['sh', '-c', 'npx --offline evenfloat practice 7'],
		environment: {PATH: `${path.dirname(nodePath)}:${process.env.PATH}`},
	});
	await program.until('How many strings');
	program.press('ctrl+c');
	expect(await program.ended).toMatchObject({exitCode: 0});
	expect(program.screen()).toContain('Nothing was entered');
}, 120_000);
