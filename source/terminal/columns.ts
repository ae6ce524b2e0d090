import stringWidth from 'string-width';
import {cutLine, type Line, line, type Span, span, widthOf} from './line.ts';

export interface Column<Row> {
	readonly id: string;
	readonly title: string;
	/** Cells without the gap. */
	readonly width: number;
	/** May take what width is left over, up to this. */
	readonly widest?: number;
	readonly side?: 'left' | 'right' | 'centre';
	/** Columns of higher rank leave first when room is short. */
	readonly rank: number;
	/** Contents for the width that the column got. */
	cell(row: Row, width: number): Line;
}

/** A column with the width it got. */
export interface Placed<Row> {
	readonly column: Column<Row>;
	readonly width: number;
}

/** Which columns are shown in `width` cells, and how wide. */
export function placeColumns<Row>(columns: readonly Column<Row>[], width: number, gap = 1): readonly Placed<Row>[] {
	const total = (kept: readonly Column<Row>[]) =>
		kept.reduce((sum, column) => sum + column.width, 0) + gap * Math.max(0, kept.length - 1);
	let kept = columns;
	while (kept.length > 1 && total(kept) > width) {
		const leaves = Math.max(...kept.map(({rank}) => rank));
		kept = kept.filter(({rank}) => rank !== leaves);
	}

	let spare = Math.max(0, width - total(kept));
	return kept.map(column => {
		const extra = Math.min(spare, Math.max(0, (column.widest ?? column.width) - column.width));
		spare -= extra;
		return {column, width: column.width + extra};
	});
}

export function titleLine<Row>(placed: readonly Placed<Row>[], gap = 1): Line {
	return joined(
		placed.map(({column, width}) => pad(line(column.title, 'quiet'), width, column.side)),
		gap,
	);
}

export function rowLine<Row>(placed: readonly Placed<Row>[], row: Row, gap = 1): Line {
	return joined(
		placed.map(({column, width}) => pad(column.cell(row, width), width, column.side)),
		gap,
	);
}

function joined(cells: readonly Line[], gap: number): Line {
	return cells.flatMap((cell, index) => (index === 0 ? cell : [span(' '.repeat(gap)), ...cell]));
}

function pad(content: Line, width: number, side: 'left' | 'right' | 'centre' = 'left'): Line {
	const kept = cutLine(content, width, width > 2 ? '…' : '');
	const spare = Math.max(0, width - widthOf(kept));
	const before = side === 'left' ? 0 : side === 'right' ? spare : Math.floor(spare / 2);
	const filler = (cells: number): readonly Span[] => (cells > 0 ? [span(' '.repeat(cells))] : []);
	return [...filler(before), ...kept, ...filler(spare - before)];
}

/** Widest of some texts, for columns that follow their contents. */
export function widest(texts: readonly string[]): number {
	return Math.max(0, ...texts.map(text => stringWidth(text)));
}
