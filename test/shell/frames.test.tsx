import {stripVTControlCharacters} from 'node:util';
import {renderToString} from 'ink';
import stringWidth from 'string-width';
import {describe, expect, test} from 'vitest';
import type {Bench} from '../../source/session/bench.ts';
import type {Ports} from '../../source/shell/ports.ts';
import {Sized} from '../../source/shell/screen.tsx';
import {openingKeys} from '../../source/shell/opening-keys.ts';
import {seenBy} from '../../source/shell/seen.ts';
import {helpKeys} from '../../source/shell/sitting-keys.ts';
import type {Wizard} from '../../source/shell/state.ts';
import {asciiGlyphs, unicodeGlyphs} from '../../source/terminal/glyphs.ts';
import {LookContext} from '../../source/terminal/look.tsx';
import {themeFor} from '../../source/terminal/theme.ts';
import {toAscii} from '../../source/units/ascii.ts';
import {opening, pressesInSitting, simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';

/** The frame as rows of plain text. */
function frame(wizard: Wizard, ports: Ports, columns: number, rows: number, glyphs = unicodeGlyphs): readonly string[] {
	const tree = (
		<LookContext value={{theme: themeFor('none'), glyphs}}>
			<Sized wizard={wizard} ports={ports} columns={columns} rows={rows} />
		</LookContext>
	);
	return stripVTControlCharacters(renderToString(tree, {columns})).split('\n');
}

const sizes = [
	[80, 24],
	[120, 40],
	[60, 18],
	[200, 60],
] as const;

function states(strings: 6 | 7 | 8) {
	const ports = simplePorts({strings});
	const asked = simpleSitting(ports);
	const tuning = pressesInSitting(asked, ports, 'Blue one\r\r');
	return {
		ports,
		wizards: {
			opening: opening(ports),
			'a question in words': asked,
			'the table': pressesInSitting(tuning, ports, '-12\r+3\r'),
			'a refusal': pressesInSitting(tuning, ports, 'x1O\r'),
			'a question': pressesInSitting(tuning, ports, '-400\r'),
			help: pressesInSitting(tuning, ports, '?'),
			outlook: pressesInSitting(tuning, ports, 'o'),
			story: pressesInSitting(tuning, ports, '-12\rs'),
			note: pressesInSitting(tuning, ports, 'nworn'),
			end: pressesInSitting(tuning, ports, '>y'),
		} satisfies Record<string, Wizard>,
	};
}

describe.each(sizes)('at %d x %d', (columns, rows) => {
	describe.each([6, 7, 8] as const)('with %d strings', strings => {
		const {ports, wizards} = states(strings);
		test.each(Object.keys(wizards))('%s is not clipped', name => {
			const wizard: Wizard = wizards[name as keyof typeof wizards];
			const lines = frame(wizard, ports, columns, rows);
			expect(lines.length).toBeLessThanOrEqual(rows - 1);
			for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(columns);
			expect(lines.at(-1)).toMatch(/leave|note|I meant it/);
		});

		test('every string has its row, the entry line stands over the keys', () => {
			const lines = frame(wizards['the table'], ports, columns, rows);
			for (let string = 1; string <= strings; string++)
				expect(lines.some(line => line.slice(0, 4).includes(`${string} `))).toBe(true);
			expect(lines.at(-2)).toContain('tuner shows ›');
			expect(lines.join('\n')).toContain('−12.0');
			expect(lines.join('\n')).toContain('moves the others');
		});
	});
});

test('regions stay where they are from one entry to the next', () => {
	const {ports, wizards} = states(6);
	const place = (wizard: Wizard) => {
		const lines = frame(wizard, ports, 80, 24);
		return [
			lines.findIndex(line => line.includes('note ')),
			lines.findIndex(line => line.includes('tuner shows ›')),
			lines.length,
		];
	};
	const first = place(wizards['the table']);
	expect(first).not.toContain(-1);
	for (const name of ['a refusal', 'a question'] as const) expect(place(wizards[name])).toEqual(first);
});

test('a refusal is read whole, wherever it stands on the screen, and in the help', () => {
	const {ports, wizards} = states(8);
	const text = 'Read “1O”: not a reading. '.repeat(8).trim();
	for (const [columns, rows] of sizes) {
		const sitting = {...wizards['the table'], message: {as: 'attention', text}} as const;
		const shown = (wizard: Wizard) => frame(wizard, ports, columns, rows);
		if (rows >= 24) expect(shown(sitting).join(' ').replaceAll(/\s+/g, ' ')).toContain(text);
		expect(
			shown({...sitting, overlay: 'help'})
				.join(' ')
				.replaceAll(/\s+/g, ' '),
		).toContain(text);
		expect(shown(sitting).length).toBe(shown(wizards['the table']).length);
	}
});

test('cautions are shown until the first entry after them, and stay in the help', () => {
	const ports = simplePorts();
	const sitting = simpleSitting(ports);
	const shown = (wizard: Wizard) => frame(wizard, ports, 80, 24).join('\n');
	expect(shown(sitting)).toContain('String ends are sharp.');
	const named = pressesInSitting(sitting, ports, 'Blue\r');
	expect(shown(named)).not.toContain('String ends are sharp.');
	expect(shown(pressesInSitting(named, ports, '?'))).toContain('String ends are sharp.');
});

test('cautions that take the table leave the forecast of the act', () => {
	const ports = simplePorts();
	const [, readings] = ports.stages;
	const caution = 'Keep your face out of the line of the strings. '.repeat(4).trim();
	const stages = [{...readings!, task: (bench: Bench) => ({...readings!.task(bench), cautions: [caution]})}];
	const careful = {...ports, stages};
	const sitting = pressesInSitting(simpleSitting(ports), ports, 'Blue\r\r');
	const shown = frame(sitting, careful, 60, 18).join(' ').replaceAll(/\s+/g, ' ');
	expect(shown).toContain(caution);
	expect(shown).toContain('Turning string 1 moves the others (cents): 2:−3.1±0.7');
	expect(shown).toContain('They stay there until they are tuned.');
});

test('the help shows every key that works, from the same table', () => {
	const {ports, wizards} = states(6);
	const sitting = wizards['the table'];
	const help = frame({...sitting, overlay: 'help'}, ports, 100, 90)
		.join('\n')
		.replaceAll(/\s+/g, ' ');
	for (const {help: words} of helpKeys(sitting, seenBy(sitting, ports))) expect(help).toContain(words);
	const first = wizards.opening;
	const firstHelp = frame({...first, isHelpOpen: true}, ports, 100, 60).join('\n');
	for (const {help: words} of openingKeys(first)) expect(firstHelp).toContain(words);
});

test('in ASCII every character is, once the last change is made', () => {
	const {ports, wizards} = states(8);
	for (const wizard of Object.values(wizards)) {
		const lines = frame(wizard, ports, 80, 24, asciiGlyphs).map(toAscii).join('');
		expect(lines).toMatch(/^[ -~]*$/);
		expect(lines.replaceAll('???', ''), 'nothing without a stand-in').not.toContain('??');
	}
});

test('a window that is too small gets one sentence with both sizes', () => {
	const {ports, wizards} = states(6);
	expect(frame(wizards['the table'], ports, 50, 12).join(' ')).toContain('50 x 12; evenfloat needs 60 x 18');
});

test('wide and low, where the trail gives way: the side column keeps to its rows', () => {
	for (const strings of [6, 7, 8] as const) {
		const {ports, wizards} = states(strings);
		for (const rows of [18, 19, 20, 21])
			for (const wizard of Object.values(wizards))
				expect(frame(wizard, ports, 173, rows).length).toBeLessThanOrEqual(rows - 1);
	}
});

test.each([
	[20, 5],
	[20, 3],
	[10, 2],
	[59, 2],
	[200, 2],
	[3, 3],
	[1, 1],
])('even at %d x %d what is said stays inside the window', (columns, rows) => {
	const {ports, wizards} = states(6);
	const lines = frame(wizards['the table'], ports, columns, rows);
	expect(lines.length).toBeLessThanOrEqual(Math.max(1, rows - 1));
	for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(columns);
	if (columns * (rows - 1) >= 20) expect(lines.join(' ')).toMatch(/q (to )?leave/);
});
