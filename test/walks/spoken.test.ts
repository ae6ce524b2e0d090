import {expect, test} from 'vitest';
import {newFolder, startProgram} from './harness.ts';

test('for a screen reader the full screen is sentences, the instruction before the table, and names --plain', async () => {
	const program = await startProgram({folder: newFolder(), environment: {INK_SCREEN_READER: 'true'}});
	const first = await program.until('--plain');
	expect(first).toContain('1  New set-up');
	expect(first).toContain('Marked: line 1.');
	program.press('down');
	await program.until('Marked: line 2.');
	program.press('enter');
	await program.until('How many strings has it?');
	for (const next of ['Which strings', 'Which notes', 'How long', 'Look it over', 'Look before', 'Read what']) {
		program.press(' ');
		await program.until(next);
	}

	for (const next of ['Choose how', 'Loosen', 'Set every', 'Unlocked', 'Pluck string 1']) {
		program.press(' ');
		await program.until(next);
	}

	program.type('-12');
	const screen = await program.until('> -12');
	expect(screen).not.toMatch(/[▌┃▰▱█·]/);
	const lines = screen.split('\n');
	const instruction = lines.findIndex(line => line.includes('Pluck string 1'));
	const entry = lines.findIndex(line => line.includes('> -12'));
	const table = lines.findIndex(line => line.startsWith('String 1, E4'));
	expect(instruction).toBeLessThan(entry);
	expect(entry).toBeLessThan(table);
	program.press('enter');
	await program.until('string 1 (E4) read −12.0 cents');
	program.press('?');
	await program.until('takes the last entry back');
	program.press('ctrl+c');
	expect(await program.ended).toMatchObject({exitCode: 0});
	expect(program.isAlternateScreen()).toBe(false);
	expect(program.screen()).toMatch(/evenfloat open \d{6}-\w{4}/);
});
