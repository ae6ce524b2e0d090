import {expect, test} from 'vitest';
import {openStore} from '../../source/storage/store.ts';
import {IntonationBench} from '../helpers/intonation-bench.ts';
import {newFolder, type Program, startProgram} from './harness.ts';
import {answer, asked, believed} from './person.ts';

/** The program at the intonate stage of a stored set-up, string 3 still to be intonated. */
async function atIntonate(): Promise<Program> {
	const folder = newFolder();
	const opened = openStore({folder, now: () => Date.now()});
	if (!opened.ok) throw new Error(opened.said);
	const {id} = opened.store.create({name: 'Guitar'});
	opened.store.save(id, new IntonationBench(3).journal);
	const program = await startProgram({folder, columns: 100, rows: 40});
	await program.until('Go on: Guitar');
	program.press('enter');
	await program.until(screen => asked(screen).includes('Sound the 12th-fret harmonic of string 3'));
	return program;
}

/** Turned as asked, every pluck as it would be, until nothing but the saddle is asked about. */
async function bringUp(program: Program): Promise<string> {
	let screen = program.screen();
	for (let steps = 0; /^(Turn|Pluck)/.test(asked(screen)); steps++) {
		expect(steps, asked(screen)).toBeLessThan(60);
		const turn = /shows ([+-]?\d+(?:\.\d+)?)/.exec(asked(screen));
		const pluck = believed(screen, /^Pluck string (\d)/.exec(asked(screen))?.[1] ?? '1') ?? '0';
		// While string 3 is slack the others stand where they are believed to; once it is back, at pitch.
		screen = await answer(program, `${turn?.[1] ?? (Math.abs(Number(pluck)) > 20 ? pluck : '0')}\r`);
	}

	return screen;
}

/** Harmonics as asked, then the fretted 12th once; whatever else has to be tuned first is tuned. */
async function sound(program: Program, harmonic: string, fretted: string): Promise<string> {
	for (let steps = 0; steps < 12; steps++) {
		const task = asked(await bringUp(program));
		const isHarmonic = task.includes('12th-fret harmonic');
		if (!isHarmonic && !/press string 3/i.test(task)) break;
		await answer(program, `${isHarmonic ? harmonic : fretted}\r`);
		if (!isHarmonic) break;
	}

	return bringUp(program);
}

test('a saddle that creeps, typed on the screen: one move, a contradiction, a check, its name', async () => {
	const program = await atIntonate();
	expect(asked(await answer(program, '0 0\r'))).toContain('Press string 3 (G3) at the 12th fret');
	expect(asked(await answer(program, '+6 +6.2\r'))).toContain('Slacken string 3');
	const move = await answer(program, '\r');
	expect(asked(move)).toContain('Move the saddle of string 3 (G3) 2.17 mm back, away from the neck.');
	expect(move).toMatch(/saddles from above, neck to the left/);

	// The other way is questioned; Escape lets it go.
	program.type('2.2 forward\r');
	await program.until('the other way');
	program.press('escape');
	await program.until(screen => !screen.includes('the other way'));
	program.press(...'2.2 forward'.split('').map(() => 'backspace'));
	await answer(program, '\r');

	const doubt = asked(await sound(program, '0 0.1', '+4.1 +4.9'));
	expect(doubt).toContain('Press string 3 (G3) lightly at the 12th fret');
	expect(doubt).toContain('perhaps the saddle crept towards the neck; tighten its screw');
	let again = program.screen();
	for (let times = 0; times < 4 && !asked(again).startsWith('Slacken'); times++) {
		again = await sound(program, '0 0.1', '4.4 4.5');
	}
	expect(asked(again)).toContain('Slacken string 3');
	expect(again).toContain('the saddle crept towards the neck; tighten its screw');
	program.press('q');
	await program.ended;
}, 120_000);
