import {readdirSync} from 'node:fs';
import path from 'node:path';
import {expect, test} from 'vitest';
import {emptyJournal, type Journal} from '../../source/session/journal.ts';
import {openStore} from '../../source/storage/store.ts';
import {bundled, start} from '../helpers/child.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const open = (folder: string) => {
	const opened = openStore({folder, now: () => 0});
	if (!opened.ok) throw new Error(opened.said);
	return opened.store;
};

// A limit on the size of files answers a write exactly as a full disk does: first with fewer bytes than
// asked for and no error, then with an error. It needs no special rights, but a shell that can set it.
test.skipIf(process.platform === 'win32').each([8, 12, 17, 32])(
	'no room beyond %i blocks: the save says so, the file keeps every stored fact, and nothing entered is lost',
	async blocks => {
		const folder = temporaryFolder();
		const child = await bundled('test/helpers/saving-child.ts');
		const {id} = (() => {
			const store = open(folder);
			const summary = store.create({name: 'Invented guitar'});
			expect(store.save(summary.id, emptyJournal)).toEqual({ok: true});
			return summary;
		})();

		const limited = start('sh', [
			'-c',
			`ulimit -f ${blocks}; exec "$0" "$@"`,
			process.execPath,
			child,
			folder,
			id,
			'100000',
		]);
		expect((await limited.ended).code).toBe(1);

		const promised = limited.lines.filter(line => line.startsWith('stored ')).length;
		expect(promised).toBeGreaterThan(5);
		const said = await limited.line(line => line.startsWith('refused '));
		expect(said).toContain('There is no room left');
		expect(said).toContain(folder);
		expect(said).toContain('--store FOLDER');

		// On the disk: everything that was stored, whole.
		const store = open(folder);
		const loaded = store.load(id);
		if (!loaded.ok) throw new Error(loaded.said);
		expect(loaded.journal.story.length).toBe(promised);
		expect(store.warnings).toEqual([]);

		// In memory: that and the fact that did not fit. With room again, the same journal is stored.
		const kept: Journal = JSON.parse((await limited.line(line => line.startsWith('kept '))).slice('kept '.length));
		expect(kept.story.length).toBe(promised + 1);
		expect(store.save(id, kept)).toEqual({ok: true});
		expect(open(folder).load(id)).toEqual({ok: true, journal: kept});
		const left = readdirSync(path.join(folder, 'setups')).filter(name => !name.endsWith('.lock'));
		expect(left).toEqual([`${id}.json`]);
	},
);
