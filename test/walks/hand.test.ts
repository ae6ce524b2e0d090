import {expect, test} from 'vitest';
import {toFirstPluck} from './first-pluck.ts';
import {newFolder, type Program, startProgram} from './harness.ts';

/** To the first pluck of a practice guitar. */
async function atFirstPluck(): Promise<Program> {
	const program = await startProgram({folder: newFolder(), arguments: ['practice', '7']});
	await toFirstPluck(program);
	return program;
}

const ss3 = '\u001BO';

test('one hand: readings from the keypad, a repeat, another string, back, forth, a note', async () => {
	const program = await atFirstPluck();
	// The keypad is told to send digits (DECKPNM); what it would send otherwise (SS3 and a letter) acts as no key.
	expect(program.written()).toContain('\u001B>');
	program.type(`${ss3}q`);
	program.type(`${ss3}u`);
	program.type('-12.5\r');
	await program.until('string 1 (E4) read −12.5 cents');

	// The same string again: its number and a colon, or the arrow that goes up.
	program.press('up');
	await program.until('› 1:');
	program.type('-12.3\r');
	await program.until('string 1 (E4) read −12.3 cents');

	program.type('5: -3\r');
	await program.until('string 5 (A2) read −3.0 cents');
	program.press('u');
	await program.until('Taken back: string 5 (A2) read −3.0 cents');
	program.press('r');
	await program.until('Put back: string 5 (A2) read −3.0 cents');

	program.type('nfret 3 buzzes, q u <\r');
	await program.until('fret 3 buzzes, q u <');

	// A step back is an entry like any other: it can be taken back.
	program.press('<');
	await program.until('Unlock, step 2');
	program.press('u');
	await program.until('Tune, step 3');
});

test('a paste: several readings one after the other; words that look like keys act as none', async () => {
	const program = await atFirstPluck();
	program.paste('-12.5\r\n-3\r\n');
	await program.until('string 2 (B3) read −3.0 cents');
	program.paste('quit');
	await program.until('› quit');
	program.press('escape');
	await program.until(screen => !screen.includes('› quit'));
	// Colours and other orders to the terminal inside a paste are text at most.
	program.paste('\u001B[31m-4\u001B[2J');
	await program.until('Pluck string 3');
	expect(program.screen()).toContain('Tune, step 3');
});
