import {describe, expect, test} from 'vitest';
import {record} from '../../source/session/journal.ts';
import {filled, journalOf, opened, read} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const journal = journalOf(filled, opened, read(1, -12));

/** A guitar with two set-ups, one finished, and something learned. */
function exported() {
	const store = storeAt(temporaryFolder());
	const first = store.create({name: 'Blue six-string'});
	store.save(first.id, journal);
	store.mark(first.id, {stage: 'sheet', finished: true});
	const second = store.create({id: first.guitarId, name: 'Blue six-string'});
	store.save(second.id, journalOf(filled));
	store.saveLearned(first.guitarId, {reach: [1, 2]});
	return {store, first, second, guitarId: first.guitarId, text: store.exportGuitar(first.guitarId)};
}

describe('an exported guitar', () => {
	test('comes in whole where it is not known', () => {
		const {store, first, second, guitarId, text} = exported();
		const there = storeAt(temporaryFolder());
		const imported = there.importGuitar(text);
		expect(imported).toMatchObject({ok: true, guitarId, known: []});
		expect(imported.ok && imported.setups.toSorted()).toEqual([first.id, second.id].toSorted());
		expect(there.load(first.id)).toEqual({ok: true, journal});
		expect(there.loadLearned(guitarId)).toEqual({reach: [1, 2]});
		expect(there.list()).toEqual(store.list());
		expect(JSON.parse(there.exportGuitar(guitarId))).toEqual(JSON.parse(text));
	});

	test('changes nothing where all of it is known', () => {
		const {store, guitarId, text} = exported();
		const before = store.list();
		expect(store.importGuitar(text)).toMatchObject({ok: true, guitarId, setups: []});
		expect(store.list()).toEqual(before);
	});

	test('overwrites neither facts, nor a name, nor what was learned since', () => {
		const {store, first, guitarId, text} = exported();
		const more = record(journal, [read(2, 5)], 9e12);
		store.save(first.id, more);
		store.renameGuitar(guitarId, 'Green six-string');
		store.saveLearned(guitarId, {reach: [3]});
		expect(store.importGuitar(text)).toMatchObject({ok: true, setups: []});
		expect(store.load(first.id)).toEqual({ok: true, journal: more});
		expect(store.list()[0]?.guitarName).toBe('Green six-string');
		expect(store.loadLearned(guitarId)).toEqual({reach: [3]});
	});

	test('that went on elsewhere comes in beside what is here', () => {
		const {store, first, text} = exported();
		const there = storeAt(temporaryFolder());
		there.importGuitar(text);
		const farther = record(journal, [read(2, 7)], 9e12);
		expect(there.load(first.id).ok).toBe(true);
		expect(there.save(first.id, farther)).toEqual({ok: true});
		const imported = store.importGuitar(there.exportGuitar(first.guitarId));
		if (!imported.ok) throw new Error(imported.said);
		expect(imported.setups).toHaveLength(1);
		expect(imported.setups[0]).not.toBe(first.id);
		expect(store.load(imported.setups[0]!)).toEqual({ok: true, journal: farther});
		expect(store.load(first.id)).toEqual({ok: true, journal});
	});
});

describe('a text that is no export', () => {
	const {text} = JSON.parse(
		JSON.stringify({
			text: '{"format":"evenfloat-export","version":1,"guitar":{"id":"260131-aaaa","name":"x","createdAt":1}',
		}),
	);

	test.each<[string, string]>([
		['nothing', ''],
		['no JSON', 'hello'],
		['another format', '{"format":"evenfloat-setup","version":1}'],
		['no set-ups', `${text}}`],
		['half a set-up', `${text},"setups":[{"id":"260131-bbbb"}]}`],
		['an id that would leave the folder', `${text.replace('260131-aaaa', '../../x')},"setups":[]}`],
	])('(%s) is refused, and nothing is stored', (_, given) => {
		const store = storeAt(temporaryFolder());
		expect(store.importGuitar(given)).toMatchObject({ok: false, said: expect.stringContaining('Nothing was stored')});
		expect(store.guitars()).toEqual([]);
	});

	test('of a newer version is refused and says so', () => {
		const store = storeAt(temporaryFolder());
		const newer = '{"format":"evenfloat-export","version":2}';
		expect(store.importGuitar(newer)).toMatchObject({ok: false, said: expect.stringContaining('newer evenfloat')});
	});

	test('with one bad set-up among good ones stores none of them', () => {
		const {text: good} = exported();
		const document = JSON.parse(good);
		document.setups[1].story[0].type = 'NeckBent';
		const store = storeAt(temporaryFolder());
		expect(store.importGuitar(JSON.stringify(document))).toMatchObject({
			ok: false,
			said: expect.stringContaining('set-up 2 of 2'),
		});
		expect(store.list()).toEqual([]);
		expect(store.guitars()).toEqual([]);
	});
});
