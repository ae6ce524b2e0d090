import {existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {filled, journalOf, opened, read} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const journal = journalOf(filled, opened, read(1, -12), read(2, 4));

function stored() {
	const folder = temporaryFolder();
	const store = storeAt(folder);
	const {id, guitarId} = store.create({name: 'Blue six-string'});
	expect(store.save(id, journal)).toEqual({ok: true});
	const file = path.join(folder, 'setups', `${id}.json`);
	return {folder, store, id, guitarId, file, text: readFileSync(file, 'utf8')};
}

describe('a damaged set-up', () => {
	test.each<[string, (text: string) => string]>([
		['cut off', text => text.slice(0, text.length / 2)],
		['empty', () => ''],
		['no JSON', () => 'this is not JSON'],
		['no object', () => '[1, 2]'],
		['another program’s', () => '{"name": "something else"}'],
		['without a version', text => text.replace('"version": 1', '"versio": 1')],
		['of version 0', text => text.replace('"version": 1', '"version": 0')],
		['with an unknown fact', text => text.replace('NutOpened', 'NeckBent')],
		['with a text for a number', text => text.replace('"cents":-12', '"cents":"-12"')],
		['without its head', text => text.replace('"guitarId"', '"guitarI"')],
	])('(%s) is set aside unchanged, and the sentence says where', (_, damage) => {
		const {folder, id, file, text} = stored();
		const damaged = damage(text);
		expect(damaged).not.toBe(text);
		writeFileSync(file, damaged);

		const store = storeAt(folder);
		const loaded = store.load(id);
		expect(loaded.ok).toBe(false);
		const [name] = readdirSync(path.join(folder, 'damaged'));
		const aside = path.join(folder, 'damaged', name!);
		expect(aside).toContain(`setups-${id}-20260131-091005.json`);
		expect(!loaded.ok && loaded.said).toContain(aside);
		expect(store.warnings).toEqual([!loaded.ok && loaded.said]);
		expect(readFileSync(aside, 'utf8')).toBe(damaged);
		expect(existsSync(file)).toBe(false);
		expect(store.list()).toEqual([]);
	});

	test('found by the list is set aside too, and the rest is listed', () => {
		const {folder, store, file} = stored();
		const other = store.create({name: 'Red six-string'});
		store.save(other.id, journal);
		store.list();
		writeFileSync(file, '{');
		const next = storeAt(folder);
		expect(next.list().map(summary => summary.id)).toEqual([other.id]);
		expect(next.warnings).toHaveLength(1);
	});

	test('never takes the place of one set aside before', () => {
		const {folder, id, file} = stored();
		for (const text of ['first', 'second', 'third']) {
			writeFileSync(file, text);
			storeAt(folder).load(id);
		}
		const texts = readdirSync(path.join(folder, 'damaged')).map(name =>
			readFileSync(path.join(folder, 'damaged', name), 'utf8'),
		);
		expect(texts.toSorted()).toEqual(['first', 'second', 'third']);
	});

	test('that is open here is written anew from memory with the next fact, and the damaged file kept', () => {
		const {folder, store, id, file} = stored();
		writeFileSync(file, 'scribble');
		const more = journalOf(filled, opened, read(1, -12), read(2, 4), read(3, 1));
		expect(store.save(id, more)).toEqual({ok: true});
		expect(storeAt(folder).load(id)).toEqual({ok: true, journal: more});
		expect(store.warnings).toHaveLength(1);
		expect(readdirSync(path.join(folder, 'damaged'))).toHaveLength(1);
	});

	test('that cannot be set aside stays where it is, and the sentence says so', () => {
		const {folder, id, file} = stored();
		writeFileSync(file, 'scribble');
		writeFileSync(path.join(folder, 'damaged'), 'a file where the folder should be');
		const loaded = storeAt(folder).load(id);
		expect(!loaded.ok && loaded.said).toContain(`stays in ${file}`);
		expect(readFileSync(file, 'utf8')).toBe('scribble');
	});

	test('law: a file cut anywhere is never taken for a whole one', () => {
		const {folder, id, file, text} = stored();
		fc.assert(
			fc.property(fc.nat({max: text.length - 2}), length => {
				writeFileSync(file, text.slice(0, length));
				const store = storeAt(folder);
				expect(store.load(id).ok).toBe(false);
				expect(store.warnings).toHaveLength(1);
			}),
			{numRuns: 50},
		);
	});
});

describe('a set-up of a newer version', () => {
	test('is refused with a sentence and not touched, by load, save, mark and list', () => {
		const {folder, store, id, file, text} = stored();
		const newer = text.replace('"version": 1', '"version": 2');
		writeFileSync(file, newer);
		const next = storeAt(folder);
		const loaded = next.load(id);
		expect(!loaded.ok && loaded.said).toContain('newer evenfloat (layout 2)');
		expect(next.save(id, journal)).toMatchObject({ok: false});
		expect(store.save(id, journal)).toMatchObject({ok: false});
		expect(next.mark(id, {finished: true})).toMatchObject({ok: false});
		expect(next.list()).toEqual([]);
		expect(next.warnings).toHaveLength(1);
		expect(readFileSync(file, 'utf8')).toBe(newer);
		expect(existsSync(path.join(folder, 'damaged'))).toBe(false);
	});
});

describe('a damaged guitar', () => {
	test('is set aside; its set-ups stay, named after the sheet', () => {
		const {folder, id, guitarId} = stored();
		writeFileSync(path.join(folder, 'guitars', `${guitarId}.json`), '{');
		const store = storeAt(folder);
		expect(store.list()).toMatchObject([{id, guitarName: 'Invented six-string'}]);
		expect(store.warnings).toHaveLength(1);
		expect(store.saveLearned(guitarId, {seen: 1})).toEqual({ok: true});
		expect(store.loadLearned(guitarId)).toEqual({seen: 1});
	});
});

describe('leftovers of a killed program', () => {
	test('neither count as set-ups nor stand in the way, and go with the next claim', () => {
		const {folder, id} = stored();
		const place = path.join(folder, 'setups');
		writeFileSync(path.join(place, `${id}.next.json`), '{"half":');
		writeFileSync(path.join(place, `${id}.next.json.tmp-1234567890abcdef`), '{');
		writeFileSync(
			path.join(place, `${id}.guard`),
			JSON.stringify({pid: 2 ** 22 + 1, host: 'x', token: 'x', since: 0}).replace(
				'"x"',
				JSON.stringify(hostOf(folder, id)),
			),
		);
		const store = storeAt(folder);
		expect(store.list()).toHaveLength(1);
		expect(store.claim(id).held).toBe(true);
		expect(readdirSync(place).toSorted()).toEqual([`${id}.json`, `${id}.lock`]);
		expect(store.warnings).toEqual([]);
	});

	test('a guard without a name is cleared after a while', () => {
		const {folder, store, id} = stored();
		writeFileSync(path.join(folder, 'setups', `${id}.guard`), '');
		expect(store.save(id, journal)).toEqual({ok: true});
	});
});

/** The machine's name as locks write it. */
function hostOf(folder: string, id: string): string {
	const store = storeAt(folder);
	const claim = store.claim(id);
	const lock: {host: string} = JSON.parse(readFileSync(path.join(folder, 'setups', `${id}.lock`), 'utf8'));
	if (claim.held) claim.release();
	return lock.host;
}

test('a set-up whose file someone deleted is written anew from memory', () => {
	const {folder, store, id, file} = stored();
	rmSync(file);
	expect(store.save(id, journal)).toEqual({ok: true});
	expect(storeAt(folder).load(id)).toEqual({ok: true, journal});
});

test('a store whose folder someone deleted is made anew', () => {
	const {folder, store, id} = stored();
	rmSync(folder, {recursive: true});
	const saved = store.save(id, journal);
	expect(saved.ok || saved.said.includes(folder)).toBe(true);
	mkdirSync(path.join(folder, 'setups'), {recursive: true});
	expect(store.save(id, journal)).toEqual({ok: true});
	expect(storeAt(folder).load(id)).toEqual({ok: true, journal});
});
