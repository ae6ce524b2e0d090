import stringWidth from 'string-width';

const graphemes = new Intl.Segmenter('en', {granularity: 'grapheme'});

/** The longest start of `text` that is at most `width` cells wide. */
function startOf(text: string, width: number): string {
	let kept = '';
	let room = width;
	for (const {segment} of graphemes.segment(text)) {
		room -= stringWidth(segment);
		if (room < 0) break;
		kept += segment;
	}

	return kept;
}

/** `text` if it fits in `width` cells, else its start and the mark for "cut". */
export function cutTo(text: string, width: number, mark = '…'): string {
	if (width <= 0) return '';
	return stringWidth(text) <= width ? text : endIn(mark, text, width);
}

/** The start of `text` with the mark behind it, `width` cells at most: says that more was to come. */
export function endIn(mark: string, text: string, width: number): string {
	const room = width - stringWidth(mark);
	return room < 1 ? startOf(text, width) : startOf(text, room).trimEnd() + mark;
}

/** Exactly `width` cells: cut or filled with spaces on the side away from `side`. */
export function fitTo(text: string, width: number, side: 'left' | 'right' | 'centre' = 'left', mark = '…'): string {
	const kept = cutTo(text, width, mark);
	const spare = Math.max(0, width - stringWidth(kept));
	if (side === 'left') return kept + ' '.repeat(spare);
	if (side === 'right') return ' '.repeat(spare) + kept;
	const before = Math.floor(spare / 2);
	return ' '.repeat(before) + kept + ' '.repeat(spare - before);
}

/**
 * Breaks text at spaces into rows of at most `width` cells; a word wider than
 * that is broken where it must be. Line feeds start a new row.
 */
export function wrapWords(text: string, width: number): readonly string[] {
	if (width <= 0) return [];
	return text.split('\n').flatMap(paragraph => wrapParagraph(paragraph, width));
}

function wrapParagraph(paragraph: string, width: number): readonly string[] {
	// What fits keeps its own spacing: it may be a row of a table.
	if (stringWidth(paragraph) <= width) return [paragraph];
	const rows: string[] = [];
	let row = '';
	for (const word of paragraph.split(/ +/)) {
		const joined = row === '' ? word : `${row} ${word}`;
		if (stringWidth(joined) <= width) {
			row = joined;
			continue;
		}

		if (row !== '') rows.push(row);
		row = word;
		while (stringWidth(row) > width) {
			// A wide character in a one-cell column still has to go somewhere.
			const start = startOf(row, width) || [...row][0]!;
			rows.push(start);
			row = row.slice(start.length);
		}
	}

	rows.push(row);
	return rows;
}

/** At most `rows` wrapped rows; what is left over is cut with the mark. */
export function wrapTo(text: string, width: number, rows: number, mark = '…'): readonly string[] {
	const all = wrapWords(text, width);
	if (all.length <= rows || rows <= 0) return all.slice(0, Math.max(0, rows));
	return [...all.slice(0, rows - 1), endIn(mark, all[rows - 1]!, width)];
}
