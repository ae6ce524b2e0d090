import {wrapWords} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, line, span} from '../terminal/line.ts';

/**
 * Cautions not yet read, then how to do it, in as many rows as there are.
 * When not all fits, the last row says where the rest is.
 */
export function howLines(
	{cautions, how}: {readonly cautions: readonly string[]; readonly how: readonly string[]},
	{width, rows, glyphs}: {readonly width: number; readonly rows: number; readonly glyphs: Glyphs},
): readonly Line[] {
	const first = cautionLines(cautions, width, glyphs);
	const all = [...first, ...how.flatMap(text => listed(text, width))];
	// A how-to may be looked up; a caution that is cut must say so.
	if (rows < 1 || first.length <= rows) return all.slice(0, Math.max(0, rows));
	return [...all.slice(0, rows - 1), line(`${glyphs.attention} more cautions: press ?`, 'attention')];
}

/** Rows that these cautions take, whole. */
export function cautionRows(cautions: readonly string[], width: number, glyphs: Glyphs): number {
	return cautionLines(cautions, width, glyphs).length;
}

function cautionLines(cautions: readonly string[], width: number, glyphs: Glyphs): readonly Line[] {
	return cautions.flatMap(text => indented(text, `${glyphs.attention} `, width, 'attention'));
}

/** `1 a choice`, `[ ] 1 an item of a list`: what goes on below stands under its words. */
const listMark = /^(?:\[.\] )?\d{1,2} (?=\S)/;

function listed(text: string, width: number): readonly Line[] {
	const mark = listMark.exec(text)?.[0] ?? '';
	return indented(text.slice(mark.length), mark, width, 'plain');
}

function indented(text: string, mark: string, width: number, as: 'attention' | 'plain'): readonly Line[] {
	const rows = wrapWords(text, Math.max(10, width - mark.length));
	return rows.map((row, index) => [
		...(mark === '' ? [] : [span(index === 0 ? mark : ' '.repeat(mark.length), as)]),
		span(row, as),
	]);
}
