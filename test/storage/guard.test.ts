import {existsSync, readFileSync, writeFileSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {expect, test} from 'vitest';
import {guarded} from '../../source/storage/guard.ts';
import {mayBeAlive, newOwner, ownerFrom} from '../../source/storage/owner.ts';
import {bundled, start} from '../helpers/child.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

test('three processes counting in one file never lose a count', async () => {
	const folder = temporaryFolder();
	writeFileSync(path.join(folder, 'count'), '0');
	const child = await bundled('test/helpers/counting-child.ts');
	const running = [1, 2, 3].map(() => start(process.execPath, [child, folder, '200']));
	for (const program of running) expect((await program.ended).code).toBe(0);
	expect(readFileSync(path.join(folder, 'count'), 'utf8')).toBe('600');
});

test('the guard is gone afterwards, also when the work fails', () => {
	const file = path.join(temporaryFolder(), 'x.guard');
	expect(guarded(file, newOwner(0), () => existsSync(file))).toBe(true);
	expect(existsSync(file)).toBe(false);
	const fail = () => {
		throw new Error('the work failed');
	};
	expect(() => guarded(file, newOwner(0), fail)).toThrow('the work failed');
	expect(existsSync(file)).toBe(false);
});

test('a guard held by a living program is waited for, and then given up with an error', () => {
	const file = path.join(temporaryFolder(), 'x.guard');
	const other = newOwner(0);
	writeFileSync(file, JSON.stringify(other));
	expect(() => guarded(file, newOwner(0), () => 0)).toThrow('held by another program');
	expect(ownerFrom(readFileSync(file, 'utf8'))).toEqual(other);
});

test.skipIf(process.platform !== 'linux')(
	'a process number used again is not taken for the program that had it',
	() => {
		const owner = newOwner(0);
		expect(mayBeAlive(owner)).toBe(true);
		expect(mayBeAlive({...owner, born: 'another boot:1'})).toBe(false);
	},
);

test('a process that is not there is not alive', () => {
	// Above the largest process number that Linux gives (proc(5), pid_max), and never a real one elsewhere.
	expect(mayBeAlive({pid: 2 ** 22 + 1, host: os.hostname(), token: 'x', since: 0})).toBe(false);
});
