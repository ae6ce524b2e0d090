import {readdirSync, readFileSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {emptyJournal, undo} from '../../source/session/journal.ts';
import {anyJournal, filled, journalOf, opened, read, sheet} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const day = 86_400_000;

/** A clock that can be set. */
function clock(start: number): {now: () => number; set(to: number): void} {
	let time = start;
	return {
		now: () => time,
		set(to) {
			time = to;
		},
	};
}

describe('a set-up', () => {
	test('that was saved comes back, in this program and in the next', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const journal = undo(journalOf(filled, opened, read(1, -12), read(2, 4)));
		const {id} = store.create({name: 'Blue six-string'});
		expect(store.save(id, journal)).toEqual({ok: true});
		expect(store.load(id)).toEqual({ok: true, journal});
		expect(storeAt(folder).load(id)).toEqual({ok: true, journal});
	});

	test('is listed at once, and leaves nothing on the disk until something is stored', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id} = store.create({name: 'Blue six-string'});
		expect(store.list().map(summary => summary.id)).toEqual([id]);
		expect(store.load(id)).toEqual({ok: true, journal: emptyJournal});
		expect(storeAt(folder).list()).toEqual([]);
		store.save(id, journalOf(filled));
		expect(
			storeAt(folder)
				.list()
				.map(summary => summary.guitarName),
		).toEqual(['Blue six-string']);
	});

	test('that is not there is said so', () => {
		const store = storeAt(temporaryFolder());
		for (const id of ['260131-nope', '../../etc/passwd', '', 'con']) {
			expect(store.load(id)).toMatchObject({ok: false});
			expect(store.save(id, emptyJournal)).toMatchObject({ok: false});
		}
	});

	test('is read by people too: one fact to a line', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id} = store.create({name: 'Blue six-string'});
		store.save(id, journalOf(filled, opened, read(1, -12)));
		const text = readFileSync(path.join(folder, 'setups', `${id}.json`), 'utf8');
		expect(text.split('\n').filter(line => line.includes('"type":'))).toHaveLength(3);
		expect(JSON.parse(text)).toMatchObject({format: 'evenfloat-setup', version: 1, id});
	});
});

test('whatever is saved is loaded: any journal', () => {
	const folder = temporaryFolder();
	const store = storeAt(folder);
	fc.assert(
		fc.property(anyJournal, journal => {
			const {id} = store.create({name: 'Any'});
			expect(store.save(id, journal)).toEqual({ok: true});
			expect(storeAt(folder).load(id)).toEqual({ok: true, journal});
		}),
		{numRuns: 60},
	);
});

describe('the list', () => {
	test('has the newest change first and remembers where the person was', () => {
		const folder = temporaryFolder();
		const {now, set} = clock(day);
		const store = storeAt(folder, now);
		const first = store.create({name: 'Blue six-string'});
		store.save(first.id, journalOf(filled));
		set(2 * day);
		const second = store.create({id: first.guitarId, name: 'ignored'});
		store.save(second.id, journalOf({type: 'SheetFilled', sheet: {...sheet, practiceSeed: 7}}));
		store.mark(second.id, {stage: 'tune'});
		set(3 * day);
		store.save(first.id, journalOf(filled, opened));
		store.mark(first.id, {finished: true});

		const expected = [
			{
				id: first.id,
				guitarId: first.guitarId,
				guitarName: 'Blue six-string',
				startedAt: day,
				changedAt: 3 * day,
				finished: true,
				practice: false,
			},
			{
				id: second.id,
				guitarId: first.guitarId,
				guitarName: 'Blue six-string',
				startedAt: 2 * day,
				changedAt: 2 * day,
				stage: 'tune',
				finished: false,
				practice: true,
			},
		];
		expect(store.list()).toMatchObject(expected);
		expect(storeAt(folder).list()).toEqual(store.list());
		expect(store.lastUnfinished()?.id).toBe(second.id);
		expect(store.guitars()).toEqual([{id: first.guitarId, name: 'Blue six-string'}]);
	});

	test('is the same with the index, without it, and with a broken one', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		for (const name of ['One', 'Two', 'Three']) store.save(store.create({name}).id, journalOf(filled));
		const list = store.list();
		expect(list).toHaveLength(3);
		const index = path.join(folder, 'index.json');
		expect(JSON.parse(readFileSync(index, 'utf8'))).toMatchObject({version: 1});
		for (const broken of [
			'',
			'{"setups":',
			'[]',
			'{"version":1,"setups":{"260131-aaaa":{}}}',
			'{"version":99,"setups":{}}',
		]) {
			writeFileSync(index, broken);
			expect(storeAt(folder).list()).toEqual(list);
			expect(storeAt(folder).warnings).toEqual([]);
		}
	});

	test('follows changes that another program made', () => {
		const folder = temporaryFolder();
		const [here, there] = [storeAt(folder), storeAt(folder)];
		const {id} = there.create({name: 'Blue six-string'});
		there.save(id, journalOf(filled));
		expect(here.list()).toHaveLength(1);
		there.mark(id, {stage: 'balance'});
		expect(here.list()[0]?.stage).toBe('balance');
		there.remove(id);
		expect(here.list()).toEqual([]);
	});
});

test('a clock set back makes no set-up older than it was', () => {
	const {now, set} = clock(10 * day);
	const store = storeAt(temporaryFolder(), now);
	const {id} = store.create({name: 'Blue six-string'});
	store.save(id, journalOf(filled));
	set(2 * day);
	store.save(id, journalOf(filled, opened));
	expect(store.list()[0]?.changedAt).toBe(10 * day);
});

describe('marks', () => {
	test('made before the first save go with it', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id} = store.create({name: 'Blue six-string'});
		expect(store.mark(id, {stage: 'intake'})).toEqual({ok: true});
		store.save(id, journalOf(filled));
		expect(storeAt(folder).list()[0]?.stage).toBe('intake');
	});

	test('do not touch the facts', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id} = store.create({name: 'Blue six-string'});
		const journal = journalOf(filled, opened);
		store.save(id, journal);
		store.mark(id, {finished: true});
		expect(storeAt(folder).load(id)).toEqual({ok: true, journal});
		expect(store.mark('260131-nope', {finished: true})).toMatchObject({ok: false});
	});
});

describe('a guitar', () => {
	test('keeps what was learned about it, and its new name', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const {id, guitarId} = store.create({name: 'Blue six-string'});
		store.save(id, journalOf(filled));
		const learned = {reach: [1.5, 2.25], seen: 3};
		expect(store.loadLearned(guitarId)).toBeUndefined();
		expect(store.saveLearned(guitarId, learned)).toEqual({ok: true});
		expect(store.renameGuitar(guitarId, 'Green six-string')).toEqual({ok: true});
		const next = storeAt(folder);
		expect(next.loadLearned(guitarId)).toEqual(learned);
		expect(next.list()[0]?.guitarName).toBe('Green six-string');
	});

	test('that was never stored keeps nothing and says so', () => {
		const store = storeAt(temporaryFolder());
		expect(store.renameGuitar('260131-nope', 'x')).toMatchObject({ok: false});
		expect(store.saveLearned('260131-nope', {})).toMatchObject({ok: false});
		expect(store.loadLearned('../index')).toBeUndefined();
		expect(() => store.exportGuitar('260131-nope')).toThrow(RangeError);
	});

	test('goes with all its set-ups, and with nothing of another', () => {
		const folder = temporaryFolder();
		const store = storeAt(folder);
		const first = store.create({name: 'Blue'});
		store.save(first.id, journalOf(filled));
		const second = store.create({id: first.guitarId, name: 'Blue'});
		store.save(second.id, journalOf(filled));
		const other = store.create({name: 'Red'});
		store.save(other.id, journalOf(filled));
		expect(store.removeGuitar(first.guitarId)).toEqual({ok: true});
		expect(store.list().map(summary => summary.guitarName)).toEqual(['Red']);
		expect(readdirSync(path.join(folder, 'setups'))).toEqual([`${other.id}.json`]);
		expect(readdirSync(path.join(folder, 'guitars'))).toEqual([`${other.guitarId}.json`]);
	});
});
