import {stripVTControlCharacters} from 'node:util';
import {renderToString} from 'ink';
import stringWidth from 'string-width';
import {describe, expect, test} from 'vitest';
import {Sized} from '../../source/shell/screen.tsx';
import type {Sitting} from '../../source/shell/state.ts';
import {startSetup} from '../../source/shell/wizard.ts';
import {asciiGlyphs, unicodeGlyphs} from '../../source/terminal/glyphs.ts';
import {LookContext} from '../../source/terminal/look.tsx';
import {themeFor} from '../../source/terminal/theme.ts';
import {earPorts} from '../helpers/ears.ts';
import {opening, presses, pressesInSitting} from '../helpers/simple-wizard.ts';

const ports = earPorts();

/** The frame as rows of plain text, without colour. */
function frame(wizard: Sitting, columns: number, rows: number, glyphs = unicodeGlyphs): readonly string[] {
	const tree = (
		<LookContext value={{theme: themeFor('none'), glyphs}}>
			<Sized wizard={wizard} ports={ports} columns={columns} rows={rows} />
		</LookContext>
	);
	return stripVTControlCharacters(renderToString(tree, {columns})).split('\n');
}

const keys = (from: Sitting, ...inputs: readonly string[]) => pressesInSitting(from, ports, ...inputs);
const menu = keys(startSetup(ports, 11), '\r\r\r\r', '5 3\r', 'nines\r', 'standard\r');
const asked = keys(menu, '18\r');
const forecast = keys(menu, '\r\r', ' ');
const measuring = keys(forecast, 'w');
const known = keys(measuring, ' ');
const states = {
	menu,
	asked,
	filled: keys(asked, '63.5 47.5\r'),
	refused: keys(asked, '47 64\r'),
	forecast,
	measuring,
	known,
} as const;

describe.each([
	[80, 24],
	[120, 40],
] as const)('at %d x %d', (columns, rows) => {
	test.each(Object.keys(states))('%s is not clipped', name => {
		for (const glyphs of [unicodeGlyphs, asciiGlyphs]) {
			const lines = frame(states[name as keyof typeof states], columns, rows, glyphs);
			expect(lines.length).toBeLessThanOrEqual(rows - 1);
			for (const line of lines) expect(stringWidth(line), line).toBeLessThanOrEqual(columns);
		}
	});

	test('the menu has a line for it, and says what was measured', () => {
		expect(frame(menu, columns, rows).join('\n')).toContain('18 spring stretch: not measured');
		expect(frame(states.filled, columns, rows).join('\n')).toContain('18 spring stretch: 63.5 from 47.5 mm');
	});

	test('how to measure is drawn, each line of the drawing on one row, with the caution over it', () => {
		for (const wizard of [asked, measuring]) {
			const lines = frame(wizard, columns, rows);
			const at = (text: string) => lines.findIndex(line => line.includes(text));
			expect(at('unhook nothing')).toBeGreaterThan(0);
			expect(at('block --o(((')).toBeGreaterThan(at('unhook nothing'));
			expect(lines[at('block --o(((') + 1]).toContain('|<- first turn to last ->|   as it stands');
			expect(at('64 47, or 64 47x1.0')).toBeGreaterThan(at('block --o((('));
		}
	});

	test('a refusal is read whole beside it', () => {
		const text = frame(states.refused, columns, rows).join(' ').replaceAll(/\s+/g, ' ');
		expect(text).toContain('Read “47 64”: closed up, 64 mm, is no shorter than as it stands, 47 mm.');
		expect(text).toContain('Example: 64 47 or 64 47x1.0');
	});

	test('the forecast offers it before the test turn, and no more once it is done', () => {
		const lines = frame(forecast, columns, rows);
		const offer = lines.findIndex(line => line.includes('w: a ruler along the springs, nothing undone: give or take'));
		expect(offer).toBeGreaterThan(0);
		expect(lines[offer + 1]).toContain('t: a test turn');
		expect(lines.at(-1)).toContain('w measure springs');
		const after = frame(known, columns, rows).join('\n');
		expect(after).toContain('give or take');
		expect(after).not.toContain('w: a ruler');
	});
});

test('the next set-up of the guitar does not take it over: its springs stand otherwise then', () => {
	const stored = keys(states.filled, '\r', ' ');
	const sheetOf = ({journal}: Sitting) =>
		journal.story.flatMap(fact => (fact.type === 'SheetFilled' ? [fact.sheet] : [])).at(-1)!;
	expect(sheetOf(stored).springLengthsMm).toEqual([63.5, 47.5]);
	presses(stored, ports, 'l');
	const next = pressesInSitting(opening(ports), ports, 's');
	expect(next.guitarId).toBe(stored.guitarId);
	expect(sheetOf(next).before).toEqual(sheetOf(stored).before);
	expect(sheetOf(next).springLengthsMm).toBeUndefined();
});
