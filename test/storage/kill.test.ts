import {readdirSync} from 'node:fs';
import path from 'node:path';
import {expect, test} from 'vitest';
import {emptyJournal} from '../../source/session/journal.ts';
import {openStore} from '../../source/storage/store.ts';
import {bundled, start} from '../helpers/child.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

/** How often to kill; set `EVENFLOAT_KILLS=200` for the long run. */
const kills = Number(process.env.EVENFLOAT_KILLS ?? 50);

test(
	`killed ${kills} times at random moments while storing: no stored fact lost, none half-written`,
	async () => {
		const folder = temporaryFolder();
		const child = await bundled('test/helpers/saving-child.ts');
		const fresh = openStore({folder, now: () => 0});
		if (!fresh.ok) throw new Error(fresh.said);
		const {id} = fresh.store.create({name: 'Invented guitar'});
		expect(fresh.store.save(id, emptyJournal)).toEqual({ok: true});

		let before = 0;
		let inFlight = 0;
		for (let kill = 0; kill < kills; kill++) {
			const running = start(process.execPath, [child, folder, id, '100000']);
			// Between the first and the twentieth fact, and then anywhere inside a save.
			const last = before + 1 + Math.floor(Math.random() * 20);
			await running.line(line => line === `stored ${last}`);
			await new Promise(resolve => setTimeout(resolve, Math.random() * 3));
			running.process.kill('SIGKILL');
			expect((await running.ended).signal).toBe('SIGKILL');
			// A claim of a killed program stands in nobody's way.
			expect(running.lines.slice(0, 2)).toEqual(['held', `loaded ${before}`]);

			const promised = Number(running.lines.at(-1)?.split(' ')[1]);
			const again = openStore({folder, now: () => 0});
			if (!again.ok) throw new Error(again.said);
			const loaded = again.store.load(id);
			if (!loaded.ok) throw new Error(loaded.said);
			expect(again.store.warnings).toEqual([]);
			const {story} = loaded.journal;
			expect(story.length).toBeGreaterThanOrEqual(promised);
			// One more may have been stored before the child could say so.
			expect(story.length).toBeLessThanOrEqual(promised + 1);
			inFlight += story.length - promised;
			expect(story.map(fact => fact.type === 'NoteWritten' && fact.text.split(' ')[1])).toEqual(
				story.map((_, index) => String(index + 1)),
			);
			before = story.length;
		}
		expect(before).toBeGreaterThanOrEqual(kills);

		// What killed programs left lying about is swept by the next one that works here.
		const last = openStore({folder, now: () => 0});
		if (!last.ok) throw new Error(last.said);
		const claim = last.store.claim(id);
		if (claim.held) claim.release();
		expect(readdirSync(path.join(folder, 'setups'))).toEqual([`${id}.json`]);
		console.log(`${kills} kills, ${before} facts stored, ${inFlight} stored but not yet said`);
	},
	30_000 + kills * 3000,
);
