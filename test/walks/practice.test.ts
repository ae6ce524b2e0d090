import {expect, test} from 'vitest';
import {truth} from '../../source/practice/index.ts';
import {practiceGuitarOf} from '../../source/session/practice-world.ts';
import {openStore} from '../../source/storage/store.ts';
import {newFolder, startProgram} from './harness.ts';
import {answer, asked} from './person.ts';

/** Keys that a whole set-up may take before it counts as going round. */
const patience = 600;

test('a newcomer takes a practice guitar from intake to the set-up sheet with one key, and it is in tune', async () => {
	const folder = newFolder();
	const program = await startProgram({folder, arguments: ['practice', '7']});
	let screen = await program.until('How many strings');
	let keys = 0;
	for (; !screen.includes('This set-up is done'); keys++) {
		expect(keys, `still at: ${asked(screen)}`).toBeLessThan(patience);
		// What the keys line offers: the simulated hands, else what Enter says.
		screen = await answer(program, / Space \S/.test(screen) ? ' ' : '\r');
	}

	program.press('q');
	await program.ended;

	const opened = openStore({folder, now: () => Date.now()});
	if (!opened.ok) throw new Error(opened.said);
	const [kept] = opened.store.list();
	const loaded = opened.store.load(kept!.id);
	if (!loaded.ok) throw new Error(loaded.said);
	const hidden = truth(practiceGuitarOf(loaded.journal.story)!);
	for (const cents of hidden.cents) expect(Math.abs(cents!)).toBeLessThan(2);
	for (const cents of hidden.fretted12ErrorCents) expect(Math.abs(cents!)).toBeLessThan(3);
	expect(Math.abs(hidden.tailM * 1000)).toBeLessThan(0.5);
}, 300_000);
