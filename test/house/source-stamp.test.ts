import {spawnSync} from 'node:child_process';
import {mkdirSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {expect, test} from 'vitest';
import {sourceStamp} from '../bench/source-stamp.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const hasGit = spawnSync('git', ['--version']).status === 0;

test('a table measured outside any history has no stamp', () => {
	expect(sourceStamp(temporaryFolder())).toBeUndefined();
});

test.skipIf(!hasGit)('a table names the commit it was measured on, and changes under source beyond it', () => {
	const folder = temporaryFolder();
	const git = (...words: readonly string[]) => {
		const {status, stdout} = spawnSync('git', ['-c', 'user.name=t', '-c', 'user.email=t@localhost', ...words], {
			cwd: folder,
			encoding: 'utf8',
		});
		expect(status).toBe(0);
		return stdout.trim();
	};
	git('init', '-q');
	mkdirSync(path.join(folder, 'source'));
	writeFileSync(path.join(folder, 'source', 'one.ts'), 'export {};\n');
	git('add', '.');
	git('commit', '-q', '-m', 'one');
	const head = git('rev-parse', '--short', 'HEAD');
	writeFileSync(path.join(folder, 'notes.txt'), 'beside the source\n');
	expect(sourceStamp(folder)).toBe(`source as of ${head}`);
	writeFileSync(path.join(folder, 'source', 'one.ts'), 'export const two = 2;\n');
	expect(sourceStamp(folder)).toBe(`source as of ${head}, with changes not committed`);
});
