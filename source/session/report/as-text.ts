import stringWidth from 'string-width';
import {type Section, sectionsOf} from './sections.ts';
import type {SetUpSheet} from './set-up-sheet.ts';
import {words} from './words.ts';

/** The sheet as plain lines, for a screen; longer sentences are left whole, for the screen to wrap. */
export function sheetText(sheet: SetUpSheet): readonly string[] {
	return [words.title(sheet.name), '', ...sectionsOf(sheet).flatMap(section => [...sectionLines(section), ''])].slice(
		0,
		-1,
	);
}

function sectionLines({title, pairs = [], table, lines = []}: Section): readonly string[] {
	const label = Math.max(0, ...pairs.map(([label]) => stringWidth(label)));
	return [
		title.toUpperCase(),
		...pairs.map(([name, value]) => `  ${padded(name, label)}  ${value}`),
		...(table ? tableLines([table.heads, ...table.rows]) : []),
		...lines.map(line => `  ${line}`),
	];
}

function tableLines(rows: readonly (readonly string[])[]): readonly string[] {
	const widths = rows[0]!.map((_, column) => Math.max(...rows.map(row => stringWidth(row[column]!))));
	return rows.map(row => `  ${row.map((cell, column) => padded(cell, widths[column]!)).join(' ')}`.trimEnd());
}

function padded(text: string, width: number): string {
	return text + ' '.repeat(Math.max(0, width - stringWidth(text)));
}
