import type {Glyphs} from '../../terminal/glyphs.ts';
import {type Line, type Span, span} from '../../terminal/line.ts';

/** Height at the tail that a row of the picture may stand for, mm. */
const scalesMm = [0.25, 0.5, 1, 2, 4] as const;

/**
 * The finest scale at which these heights still fit.
 * @param rows Odd, ≥ 3; the middle one is level.
 */
export function scaleFor(heightsMm: readonly number[], rows: number): number {
	const most = Math.max(...heightsMm.map(Math.abs));
	return scalesMm.find(scale => most <= (scale * rows) / 2) ?? scalesMm.at(-1)!;
}

/**
 * The plate seen from the side, neck to the left, tilt drawn larger than
 * life: it leaves the post and rises or falls towards the tail. The mark at
 * the end stands where the tail edge is wanted.
 *
 * @param rows Odd, ≥ 3; the middle one is level.
 * @param width Cells, ≥ 12.
 */
export function sideView({
	tailMm,
	wishMm,
	mmPerRow,
	rows,
	width,
	glyphs,
}: {
	readonly tailMm: number;
	readonly wishMm: number;
	readonly mmPerRow: number;
	readonly rows: number;
	readonly width: number;
	readonly glyphs: Glyphs;
}): readonly Line[] {
	const middle = (rows - 1) / 2;
	const rowOf = (mm: number) => Math.max(-middle, Math.min(middle, Math.round(mm / mmPerRow)));
	const post = Math.floor(width / 5);
	const plate = width - post - 3;
	return Array.from({length: rows}, (_, index) => {
		const above = middle - index;
		const cells: Span[] = [span(' '.repeat(post)), span(above <= 0 ? glyphs.post : ' ')];
		let text = '';
		for (let x = 1; x <= plate; x++) {
			const level = above === 0 ? glyphs.rung : ' ';
			text += rowOf((tailMm * x) / plate) === above ? glyphs.full : level;
		}
		cells.push(span(text, 'strong'), span(' '), span(rowOf(wishMm) === above ? glyphs.aim : ' ', 'accent'));
		return cells;
	});
}
