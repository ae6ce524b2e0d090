import {box, label, line, picture, type Shape} from './svg.ts';

/** Where things stand in a picture with one row a string. */
export interface Rows {
	readonly width: number;
	readonly height: number;
	/** Pixels of a value on the scale. */
	x(value: number): number;
	/** Pixels of the middle of a row, first = 0. */
	y(row: number): number;
	readonly top: number;
	readonly bottom: number;
}

const width = 430;
const rowHeight = 26;
const left = 54;
const right = 62;
const top = 8;
const axis = 40;

/** @param scale Values at the left and the right end. */
export function rowsFor(count: number, [low, high]: readonly [number, number]): Rows {
	const bottom = top + count * rowHeight;
	const perValue = (width - left - right) / (high - low);
	return {
		width,
		height: bottom + axis,
		x: value => left + (value - low) * perValue,
		y: row => top + (row + 0.5) * rowHeight,
		top,
		bottom,
	};
}

/** A picture with named rows, marks along the bottom, and what is drawn in it. */
export function rowPicture(
	rows: Rows,
	{
		title,
		names,
		values,
		marks,
		axisWords,
	}: {
		readonly title: string;
		readonly names: readonly string[];
		/** At the right end of each row. */
		readonly values: readonly string[];
		readonly marks: readonly {readonly at: number; readonly text: string}[];
		readonly axisWords: string;
	},
	shapes: readonly Shape[],
): string {
	const end = rows.width - right;
	return picture({width: rows.width, height: rows.height, title}, [
		...names.flatMap((_, row) =>
			row % 2 === 0 ? [box([left, rows.y(row) - rowHeight / 2], [end - left, rowHeight], 'row')] : [],
		),
		...marks.map(({at}) => line([rows.x(at), rows.top], [rows.x(at), rows.bottom], 'grid')),
		...shapes,
		...names.map((name, row) => label([left - 10, rows.y(row) + 4], name, {anchor: 'end'})),
		...values.map((value, row) => label([rows.width - 2, rows.y(row) + 4], value, {as: 'value', anchor: 'end'})),
		...marks.map(({at, text}) => label([rows.x(at), rows.bottom + 16], text, {as: 'mark', anchor: 'middle'})),
		label([(left + end) / 2, rows.bottom + 33], axisWords, {as: 'mark', anchor: 'middle'}),
	]);
}
