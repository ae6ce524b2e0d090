import {mkdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import {describe, expect, test} from 'vitest';
import {runKeeping} from '../../source/shell/keeping.ts';
import {filled, journalOf, opened, read} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

type Told = {readonly status: number; readonly said: string; readonly complained: string; readonly reads: number};

function run(folder: string, kind: 'history' | 'recheck', guitar: string, input = ''): Told {
	let [said, complained, reads] = ['', '', 0];
	const status = runKeeping(
		{kind, guitar},
		{
			store: storeAt(folder),
			now: () => 0,
			read: () => {
				reads++;
				return input;
			},
			say: text => {
				said += text;
			},
			complain: text => {
				complained += text;
			},
		},
	);
	return {status, said, complained, reads};
}

/** One set-up with a sheet, and one that was begun only. */
function kept() {
	const folder = temporaryFolder();
	const store = storeAt(folder);
	const whole = store.create({name: 'Blue one'});
	expect(store.save(whole.id, journalOf(filled, opened, read(1, -12)))).toEqual({ok: true});
	const begun = store.create({name: 'Bare one'});
	expect(store.save(begun.id, journalOf({type: 'NoteWritten', text: 'no sheet yet'}))).toEqual({ok: true});
	return {folder, fileOf: (id: string) => path.join(folder, 'setups', `${id}.json`), whole};
}

test('a re-check of a guitar without a sheet says so once, as a problem, and waits for no readings', () => {
	const told = run(kept().folder, 'recheck', 'Bare one', '1 2 3 4 5 6');
	expect(told).toEqual({
		status: 1,
		said: '',
		complained: 'No set-up of this guitar got as far as its sheet.\n',
		reads: 0,
	});
});

describe('a set-up whose file cannot be read', () => {
	test.each(['history', 'recheck'] as const)('is not left out of the %s without a sentence', kind => {
		const {folder, fileOf, whole} = kept();
		// A folder in the file's place: whoever runs this cannot read it, an administrator neither.
		rmSync(fileOf(whole.id));
		mkdirSync(fileOf(whole.id));
		const told = run(folder, kind, 'Blue one');
		expect(told.complained).toContain(`The set-up ${whole.id} cannot be read.`);
		expect(told.complained.split('cannot be read')).toHaveLength(2);
	});

	test('does not stop the others', () => {
		const {folder, fileOf, whole} = kept();
		const store = storeAt(folder);
		const again = store.create({id: whole.guitarId, name: 'Blue one'});
		expect(store.save(again.id, journalOf(filled, read(1, -3)))).toEqual({ok: true});
		rmSync(fileOf(whole.id));
		mkdirSync(fileOf(whole.id));
		const told = run(folder, 'recheck', 'Blue one', '0 0 0 0 0 0');
		expect(told.said).toMatch(/^string 1: expected −\d/);
		expect(told.complained).toContain('cannot be read.');
	});
});
