import {expect, test} from 'vitest';
import {type Column, placeColumns, rowLine, titleLine} from '../../source/terminal/columns.ts';
import {line, textOf, widthOf} from '../../source/terminal/line.ts';

const columns: readonly Column<{n: number}>[] = [
	{id: 'string', title: '#', width: 2, rank: 0, cell: ({n}) => line(String(n))},
	{id: 'bar', title: 'bar', width: 5, widest: 9, rank: 1, cell: (_, width) => line('='.repeat(width))},
	{id: 'force', title: 'N', width: 4, side: 'right', rank: 2, cell: ({n}) => line(String(n * 10))},
];

test('a column that may grow takes what is left over, and no more', () => {
	expect(placeColumns(columns, 40).map(({width}) => width)).toEqual([2, 9, 4]);
	expect(placeColumns(columns, 15).map(({width}) => width)).toEqual([2, 7, 4]);
});

test('the column of the highest rank leaves first', () => {
	expect(placeColumns(columns, 12).map(({column}) => column.id)).toEqual(['string', 'bar']);
	expect(placeColumns(columns, 4).map(({column}) => column.id)).toEqual(['string']);
});

test('titles stand over their cells', () => {
	const placed = placeColumns(columns, 13);
	expect(textOf(titleLine(placed))).toBe('#  bar      N');
	expect(textOf(rowLine(placed, {n: 7}))).toBe('7  =====   70');
	expect(widthOf(rowLine(placed, {n: 123_456}))).toBe(13);
});
