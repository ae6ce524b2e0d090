import {describe, expect, test} from 'vitest';
import {toFirstPluck} from './first-pluck.ts';
import {newFolder, type Program, startProgram} from './harness.ts';

/** To the first question of the tune stage, the practice guitar's hands doing the rest. */
async function tuning(
	options: {columns?: number; rows?: number; environment?: Record<string, string>; arguments?: string[]} = {},
): Promise<Program> {
	const {arguments: more = [], ...rest} = options;
	const program = await startProgram({folder: newFolder(), ...rest, arguments: ['practice', '7', ...more]});
	await toFirstPluck(program);
	program.press(' ');
	await program.until('Pluck string 2');
	return program;
}

const esc = '\u001B';

describe.each([
	[80, 24],
	[120, 40],
	[60, 18],
] as const)('%d x %d', (columns, rows) => {
	test('shows where one is, what to do, the table, the entry line and the keys', async () => {
		const program = await tuning({columns, rows});
		const lines = program.screen().split('\n');
		expect(lines[0]).toMatch(/evenfloat {2}Practice guit.*Tune, step 3 of 8.*%/);
		for (const note of ['E4', 'B3', 'G3', 'D3', 'A2', 'E2'])
			expect(lines.some(line => line.includes(` ${note} `))).toBe(true);
		expect(program.screen()).toMatch(/[+−]\d+\.\d ±\d/);
		const entry = lines.findIndex(line => line.includes('›'));
		expect(lines[entry + 1]).toMatch(/Space pluck it.*\? help.*q leave/);
		// The terminal's own cursor waits where the next character goes.
		program.type('-1');
		await program.until('› -1');
		const {x, y} = program.cursor();
		expect(y).toBe(entry);
		expect(x).toBe(program.screen().split('\n')[entry]!.indexOf('› -1') + 4);
	});
});

test('any size at any time: the screen follows, and what is typed stays', async () => {
	const program = await tuning();
	program.type('-12');
	await program.until('› -12');
	const sizes = [
		[120, 40],
		[60, 18],
		[40, 10],
		[200, 60],
		[61, 19],
		[80, 24],
		[100, 18],
		[60, 50],
		[1, 1],
		[80, 24],
	] as const;
	for (let round = 0; round < 3; round++) for (const [columns, rows] of sizes) program.resize(columns, rows);
	// Each sentence names a size that came up only once: what was sent before it has been seen.
	program.resize(39, 9);
	await program.until('This window is 39 x 9');
	program.type('999');
	program.resize(41, 11);
	await program.until('This window is 41 x 11');
	program.resize(80, 24);
	await program.until(screen => screen.includes('› -12') && screen.split('\n')[0]!.includes('evenfloat'));
	expect(program.screen()).not.toContain('999');
	const lines = program.screen().split('\n');
	expect(lines.filter(line => line.includes('evenfloat  Practice guitar'))).toHaveLength(1);
	program.press('enter');
	await program.until('string 2 (B3) read −12.0 cents');
});

test('keys pressed before the first screen are neither lost nor drawn', async () => {
	const program = await startProgram({folder: newFolder()});
	program.type('\r\r');
	const screen = await program.until('Which strings');
	expect(screen.split('\n')[0]).toContain('Intake, step 1 of');
	expect(screen.split('\n')[1]).toContain('Final check');
});

describe('colour', () => {
	/** What a terminal takes for colour: ECMA-48, SGR 30 to 49; 90 to 107 by common practice. Without "default colour". */
	const colour = new RegExp(`${esc}\\[(?:3[0-8]|4[0-8]|9\\d|10\\d)(?:;\\d+)*m`);

	test('is used where there is some', async () => {
		expect((await tuning({environment: {COLORTERM: 'truecolor'}})).written()).toMatch(colour);
	});

	test('256 colours are named by their place', async () => {
		const written = (await tuning({environment: {TERM: 'xterm-256color'}})).written();
		expect(written).toContain(`${esc}[38;5;`);
		expect(written).not.toContain('[38;2;');
	});

	test('16 colours are those of the terminal’s palette', async () => {
		const written = (await tuning({environment: {TERM: 'xterm'}})).written();
		expect(written).toMatch(colour);
		expect(written).not.toMatch(/\[38;/);
	});

	test.each([
		['NO_COLOR', {environment: {NO_COLOR: '1'}}],
		['--no-color', {arguments: ['--no-color']}],
	])('%s: none, and the one instruction is still bold', async (_, options) => {
		const program = await tuning(options);
		expect(program.written()).not.toMatch(colour);
		expect(program.written()).toContain(`${esc}[1mPluck string`);
	});
});

test.each([
	['a locale without Unicode', {environment: {LANG: 'C'}}],
	['--ascii', {arguments: ['--ascii']}],
])('%s: ASCII only', async (_, options) => {
	const program = await tuning(options);
	expect([...program.written()].filter(character => character > '~' && character !== '\u007F')).toEqual([]);
	expect(program.screen()).toContain('|');
});

test('a program that is open elsewhere is said to be, may be looked at, and taken over', async () => {
	const folder = newFolder();
	const first = await startProgram({folder, arguments: ['practice', '7']});
	await first.until('How many strings');
	first.press('enter');
	await first.until('Which strings');
	const second = await startProgram({folder});
	await second.until('Go on: Practice guitar');
	second.press('enter');
	await second.until('open in another program');
	second.press('enter');
	await second.until('look only');
	second.type('nines\r');
	await second.until('only look on');
	second.press('ctrl+c');
	await second.ended;

	const third = await startProgram({folder});
	await third.until('Go on: Practice guitar');
	third.press('enter');
	await third.until('open in another program');
	third.press('y');
	await third.until('Which strings');
	third.type('nines\r');
	await third.until('Which notes');
	// The first is told, and what it enters is kept apart.
	first.type('elevens\r');
	await first.until(screen => /Not stored\. .* kept as set-up \d{6}-\w{4}/.test(screen.replaceAll(/\s+/g, ' ')));
});
