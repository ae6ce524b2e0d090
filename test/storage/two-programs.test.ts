import {writeFileSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {describe, expect, test} from 'vitest';
import {type Journal, record} from '../../source/session/journal.ts';
import {bundled, start} from '../helpers/child.ts';
import {filled, journalOf, opened, read} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

/** Two programs on one set-up that the first has open. */
function twoPrograms() {
	const folder = temporaryFolder();
	const first = storeAt(folder);
	const {id} = first.create({name: 'Blue six-string'});
	const journal = journalOf(filled, opened);
	expect(first.save(id, journal)).toEqual({ok: true});
	expect(first.claim(id).held).toBe(true);
	const second = storeAt(folder);
	return {folder, id, journal, first, second};
}

const plus = (journal: Journal, cents: number) => record(journal, [read(1, cents)], 60_000);
const notes = ({story}: Journal) => story.flatMap(fact => (fact.type === 'PitchRead' ? [fact.cents] : []));

describe('a second program', () => {
	test('is told who has the set-up open, and may look', () => {
		const {id, journal, second} = twoPrograms();
		expect(second.claim(id)).toMatchObject({
			held: false,
			by: {pid: process.pid, alive: true, since: 1_769_850_605_000},
		});
		expect(second.load(id)).toEqual({ok: true, journal});
	});

	test('that only looks cannot store into it; what it entered is kept apart', () => {
		const {id, journal, first, second} = twoPrograms();
		second.load(id);
		const saved = second.save(id, plus(journal, 5));
		expect(saved).toMatchObject({ok: false, keptAs: expect.any(String)});
		expect(first.save(id, plus(journal, 7))).toEqual({ok: true});
		expect(first.load(id)).toEqual({ok: true, journal: plus(journal, 7)});
	});

	test('gets it when the first lets go', () => {
		const {id, first, second} = twoPrograms();
		const again = first.claim(id);
		expect(again.held).toBe(true);
		if (again.held) again.release();
		expect(second.claim(id).held).toBe(true);
		expect(first.claim(id).held).toBe(false);
	});

	test('may take over: the first can no longer store, nothing is overwritten, and no fact of either is lost', () => {
		const {folder, id, journal, first, second} = twoPrograms();
		expect(second.takeOver(id).held).toBe(true);
		second.load(id);
		expect(second.save(id, plus(journal, 22))).toEqual({ok: true});

		const mine = plus(journal, 11);
		const refused = first.save(id, mine);
		expect(refused).toMatchObject({ok: false});
		if (refused.ok || refused.keptAs === undefined) throw new Error('expected the facts to be kept');
		expect(refused.said).toContain('took it over');
		expect(refused.said).toContain(refused.keptAs);

		const third = storeAt(folder);
		expect(third.load(id)).toEqual({ok: true, journal: plus(journal, 22)});
		expect(third.load(refused.keptAs)).toEqual({ok: true, journal: mine});
		expect(third.list().find(summary => summary.id === refused.keptAs)).toMatchObject({splitFrom: id, finished: false});

		// Going on in the first adds to what is kept apart; it does not litter.
		const more = plus(mine, 12);
		expect(first.save(id, more)).toMatchObject({ok: false, keptAs: refused.keptAs});
		expect(storeAt(folder).load(refused.keptAs)).toEqual({ok: true, journal: more});
		expect(third.list()).toHaveLength(2);
	});

	test('that took over and let go again without a fact leaves the way free', () => {
		const {id, journal, first, second} = twoPrograms();
		const claim = second.takeOver(id);
		if (claim.held) claim.release();
		expect(first.save(id, plus(journal, 1))).toEqual({ok: true});
	});

	test('that stored something and ended is noticed all the same', () => {
		const {id, journal, first, second} = twoPrograms();
		const claim = second.takeOver(id);
		second.load(id);
		second.save(id, plus(journal, 2));
		if (claim.held) claim.release();
		const refused = first.save(id, plus(journal, 1));
		expect(refused).toMatchObject({ok: false, keptAs: expect.any(String)});
		expect(!refused.ok && refused.said).toContain('changed by another program');
		// Undone back to where both agree there is nothing that only the first knows.
		expect(first.save(id, journal)).not.toHaveProperty('keptAs');
	});

	test('that only marked the stage costs the first nothing', () => {
		const {id, journal, first, second} = twoPrograms();
		const claim = second.takeOver(id);
		second.mark(id, {stage: 'tune'});
		if (claim.held) claim.release();
		expect(first.save(id, plus(journal, 1))).toEqual({ok: true});
		expect(first.list()[0]?.stage).toBe('tune');
	});

	test('that marks after the first stored does not swallow what the first stored', () => {
		const {id, journal, first, second} = twoPrograms();
		second.load(id);
		first.save(id, plus(journal, 1));
		const claim = first.claim(id);
		if (claim.held) claim.release();
		second.mark(id, {stage: 'tune'});
		expect(second.save(id, plus(journal, 2))).toMatchObject({ok: false});
		const loaded = first.load(id);
		expect(loaded.ok && notes(loaded.journal)).toEqual([1]);
	});

	test('cannot delete what the first has open', () => {
		const {id, first, second} = twoPrograms();
		expect(second.remove(id)).toMatchObject({ok: false, said: expect.stringContaining('open in another program')});
		expect(first.load(id).ok).toBe(true);
		expect(first.remove(id)).toEqual({ok: true});
	});
});

test('claiming again in the same program is no conflict', () => {
	const {id, first} = twoPrograms();
	expect(first.claim(id).held).toBe(true);
});

test('a program on another machine may be alive for all anyone knows', () => {
	const {folder, id, first, second} = twoPrograms();
	const claim = first.claim(id);
	if (claim.held) claim.release();
	const lock = {pid: 2 ** 22 + 1, host: `not-${os.hostname()}`, token: 'x', since: 5};
	writeFileSync(path.join(folder, 'setups', `${id}.lock`), JSON.stringify(lock));
	expect(second.claim(id)).toMatchObject({held: false, by: {pid: lock.pid, host: lock.host, since: 5, alive: true}});
});

test.each(['', '{"pid":', 'null', '{"pid":"x"}'])('a lock that says nothing (%j) holds nothing', text => {
	const {folder, id, first, second} = twoPrograms();
	const claim = first.claim(id);
	if (claim.held) claim.release();
	writeFileSync(path.join(folder, 'setups', `${id}.lock`), text);
	expect(second.claim(id).held).toBe(true);
});

test('real processes: a living one holds its claim, a killed one does not', async () => {
	const {folder, id, first} = twoPrograms();
	const claim = first.claim(id);
	if (claim.held) claim.release();
	const child = await bundled('test/helpers/saving-child.ts');
	const other = start(process.execPath, [child, folder, id, '100000']);
	await other.line(line => line === 'stored 3');
	expect(first.claim(id)).toMatchObject({held: false, by: {pid: other.process.pid, alive: true}});
	other.process.kill('SIGKILL');
	await other.ended;
	expect(first.claim(id).held).toBe(true);
});

test('two processes storing into different set-ups of one folder do not disturb each other', async () => {
	const {folder, first} = twoPrograms();
	const child = await bundled('test/helpers/saving-child.ts');
	const ids = [1, 2].map(() => {
		const {id} = first.create({name: 'Blue six-string'});
		first.save(id, journalOf());
		return id;
	});
	const running = ids.map(id => start(process.execPath, [child, folder, id, '60']));
	for (const program of running) {
		expect((await program.ended).code).toBe(0);
		expect(program.lines.at(-1)).toBe('done');
	}
	for (const id of ids) {
		const loaded = storeAt(folder).load(id);
		expect(loaded.ok && loaded.journal.story.length).toBe(60);
	}
});

test('two processes storing into the same set-up: one goes on, the other is refused, and every fact of both is on the disk', async () => {
	const {folder, id, first} = twoPrograms();
	const claim = first.claim(id);
	if (claim.held) claim.release();
	const child = await bundled('test/helpers/saving-child.ts');
	const one = start(process.execPath, [child, folder, id, '100000']);
	await one.line(line => line === 'stored 5');
	// It takes the set-up away while the other stores as fast as it can.
	const taken = first.takeOver(id);
	expect(taken.held).toBe(true);
	expect((await one.ended).code).toBe(1);
	const kept: Journal = JSON.parse((await one.line(line => line.startsWith('kept '))).slice('kept '.length));
	const stories = storeAt(folder)
		.list()
		.map(summary => first.load(summary.id))
		.flatMap(loaded => (loaded.ok ? [loaded.journal.story] : []));
	expect(stories).toContainEqual(kept.story);
	expect(one.lines.some(line => line.startsWith('refused') && line.includes('took it over'))).toBe(true);
});
