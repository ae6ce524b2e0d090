import {type Section, sectionsOf} from './sections.ts';
import type {SetUpSheet} from './set-up-sheet.ts';
import {words} from './words.ts';

/** The sheet as Markdown, to be kept or handed over. Ends with a line feed. */
export function sheetMarkdown(sheet: SetUpSheet): string {
	const blocks = [`# ${escaped(words.title(sheet.name))}`, ...sectionsOf(sheet).flatMap(sectionBlocks)];
	return `${blocks.join('\n\n')}\n`;
}

function sectionBlocks({title, pairs = [], table, lines = []}: Section): readonly string[] {
	return [
		`## ${title}`,
		...(pairs.length > 0 ? [pairs.map(([label, value]) => `- ${label}: ${escaped(value)}`).join('\n')] : []),
		...(table ? [tableBlock(table)] : []),
		...(lines.length > 0 ? [lines.map(line => `- ${escaped(line)}`).join('\n')] : []),
	];
}

function tableBlock({heads, rows}: NonNullable<Section['table']>): string {
	const row = (cells: readonly string[]) => `| ${cells.map(escaped).join(' | ')} |`;
	return [row(heads), row(heads.map(() => '---')), ...rows.map(row)].join('\n');
}

/** What a person typed must not become markup. */
function escaped(text: string): string {
	return text.replace(/[\\`*_{}[\]<>#|]/g, sign => `\\${sign}`).replace(/\s+/g, ' ');
}
