import {expect, test} from 'vitest';
import {truth} from '../../source/practice/index.ts';
import {practiceGuitarOf} from '../../source/session/practice-world.ts';
import {openStore} from '../../source/storage/store.ts';
import {newFolder, startProgram} from './harness.ts';
import {answer, asked, step} from './person.ts';

/** Keys that a whole set-up may take before it counts as going round. */
const patience = 600;

/** What the keys line offers: the simulated hands, else what Enter says. */
const keyOn = (screen: string) => (/ Space \S/.test(screen) ? ' ' : '\r');

// Nothing chosen for its outcome: any guitar must come out right.
test.each(['7', '2024'])(
	'a newcomer takes practice guitar %s from intake to the set-up sheet with one key, and it is in tune',
	async seed => {
		const folder = newFolder();
		const program = await startProgram({folder, arguments: ['practice', seed]});
		let screen = await program.until('How many strings');
		for (let keys = 0; !screen.includes('This set-up is done'); keys++) {
			expect(keys, `still at: ${asked(screen)}\n${screen}`).toBeLessThan(patience);
			screen = await answer(program, keyOn(screen));
		}

		program.press('q');
		await program.ended;

		const opened = openStore({folder, now: () => Date.now()});
		if (!opened.ok) throw new Error(opened.said);
		const [kept] = opened.store.list();
		const loaded = opened.store.load(kept!.id);
		if (!loaded.ok) throw new Error(loaded.said);
		const hidden = truth(practiceGuitarOf(loaded.journal.story)!);
		for (const cents of hidden.cents) expect(Math.abs(cents!), 'open, cents').toBeLessThan(2);
		for (const cents of hidden.fretted12ErrorCents) expect(Math.abs(cents!), 'fretted 12th, cents').toBeLessThan(3);
		expect(Math.abs(hidden.tailM * 1000), 'tail, mm').toBeLessThan(0.5);
	},
	300_000,
);

test('a six-string with tens, standard, 648 mm starts in fewer than ten keys from the first screen', async () => {
	const program = await startProgram({folder: newFolder()});
	await program.until('New set-up');
	program.press('enter');
	let screen = await program.until('How many strings');
	const all = [screen];
	let keys = 1;
	for (; step(screen) === 'Intake'; keys++) {
		expect(keys, `still at: ${asked(screen)}`).toBeLessThan(10);
		screen = await answer(program, '\r');
		all.push(screen);
	}

	expect(keys).toBeLessThan(10);
	for (const said of [/6 *strings|strings: 6/, /tens/, /standard/, /648 mm/]) expect(all.join('\n')).toMatch(said);
	expect(step(screen)).toBe('Unlock');
});
