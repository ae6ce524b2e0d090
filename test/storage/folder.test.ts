import {chmodSync, mkdirSync, readdirSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {describe, expect, test} from 'vitest';
import {sayFailure} from '../../source/storage/failure.ts';
import {chooseFolder} from '../../source/storage/folder.ts';
import {openStore} from '../../source/storage/store.ts';
import {filled, journalOf} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

describe('the folder', () => {
	test('is the one asked for, else the variable’s, else the platform’s own', () => {
		expect(chooseFolder('/a', {EVENFLOAT_STORE: '/b'})).toBe(path.resolve('/a'));
		expect(chooseFolder(undefined, {EVENFLOAT_STORE: '/b'})).toBe(path.resolve('/b'));
		expect(path.basename(path.dirname(path.join(chooseFolder(undefined, {}), 'x')))).toMatch(/evenfloat|Config/);
		expect(path.isAbsolute(chooseFolder('bench', {}))).toBe(true);
	});

	test('is made, with all above it', () => {
		const folder = path.join(temporaryFolder(), 'deep', 'er');
		expect(storeAt(folder).folder).toBe(folder);
		expect(readdirSync(folder).toSorted()).toEqual(['guitars', 'setups']);
	});
});

describe('a folder that cannot be used', () => {
	test('because a file is in its place: the sentence names it and says what to do', () => {
		const file = path.join(temporaryFolder(), 'taken');
		writeFileSync(file, 'a file');
		for (const folder of [file, path.join(file, 'below')]) {
			const opened = openStore({folder, now: () => 0});
			expect(opened.ok).toBe(false);
			if (opened.ok) continue;
			expect(opened.said).toContain(folder);
			expect(opened.said).toContain('something on that path is a file');
			expect(opened.said).toContain('--store FOLDER');
		}
	});

	test.skipIf(process.platform === 'win32' || process.getuid?.() === 0)('because it is read-only', () => {
		const folder = temporaryFolder();
		chmodSync(folder, 0o555);
		const opened = openStore({folder, now: () => 0});
		expect(opened).toMatchObject({ok: false, said: expect.stringContaining('may not be written')});
		chmodSync(folder, 0o755);
	});

	test.skipIf(process.platform !== 'linux')('because the system does not let anyone make one there', () => {
		const opened = openStore({folder: '/proc/evenfloat', now: () => 0});
		expect(opened).toMatchObject({ok: false, said: expect.stringContaining('/proc/evenfloat')});
	});

	test('because it became useless while the program ran: the save says so, and works again when it is mended', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id} = store.create({name: 'Blue six-string'});
		writeFileSync(path.join(folder, 'setups', `${id}.next.json`), '');
		// A folder where the file should go: nothing can be renamed onto it.
		const inTheWay = path.join(folder, 'setups', `${id}.json`);
		mkdirSync(path.join(inTheWay, 'x'), {recursive: true});
		const saved = store.save(id, journalOf(filled));
		expect(saved).toMatchObject({ok: false});
	});
});

describe('every failure is a sentence that says where, why and what to do', () => {
	test.each([
		['ENOSPC', 'no room left'],
		['EDQUOT', 'no room left'],
		['EROFS', 'may not be written'],
		['EACCES', 'may not be written'],
		['EPERM', 'may not be written'],
		['ENOTDIR', 'cannot be used as a folder'],
		['EBUSY', 'busy'],
		['EIO', 'could not be used'],
	])('%s', (code, words) => {
		const said = sayFailure(Object.assign(new Error(`${code}: something`), {code}), '/bench/store');
		expect(said).toContain('/bench/store');
		expect(said).toContain(words);
		expect(said).toMatch(/^[A-Z/].*\.$/);
	});
});
