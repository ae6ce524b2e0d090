import fc from 'fast-check';
import {expect, test} from 'vitest';
import {regionsFor, smallest} from '../../source/shell/regions.ts';

const columns = fc.integer({min: smallest.columns, max: 300});
const rows = fc.integer({min: smallest.rows, max: 120});
const strings = fc.constantFrom(6, 7, 8);

test('at any size the regions fill the terminal but for one row, and none is cut', () => {
	fc.assert(
		fc.property(columns, rows, strings, (columns, rows, strings) => {
			const {heights, width, side} = regionsFor({columns, rows}, strings)!;
			expect(Object.values(heights).reduce((sum, height) => sum + height, 0)).toBe(rows - 1);
			expect(heights.strings).toBe(strings);
			for (const region of ['header', 'task', 'forecast', 'message', 'entry', 'keys'] as const)
				expect(heights[region]).toBeGreaterThan(0);
			expect(width + (side ? side.width + 2 : 0) + 1).toBeLessThan(columns);
		}),
	);
});

test('a larger terminal never shows less', () => {
	fc.assert(
		fc.property(rows, strings, (rows, strings) => {
			const here = regionsFor({columns: 80, rows}, strings)!.heights;
			const larger = regionsFor({columns: 80, rows: rows + 1}, strings)!.heights;
			// Rows left over go to the how-to until they are enough for a picture.
			for (const [region, height] of Object.entries(here))
				if (region !== 'how') expect(larger[region as 'plate'], region).toBeGreaterThanOrEqual(height);
		}),
	);
});

test('80 x 24 has titles, plate, two rows of forecast and a way to everything with eight strings', () => {
	const {heights} = regionsFor({columns: 80, rows: 24}, 8)!;
	expect(heights).toMatchObject({titles: 1, plate: 1, trail: 1, forecast: 2, message: 2, strings: 8});
	expect(heights.how).toBeGreaterThanOrEqual(2);
});

test('120 x 40 has a column beside and room for a picture', () => {
	const {side, heights} = regionsFor({columns: 120, rows: 40}, 6)!;
	expect(side!.width).toBeGreaterThan(30);
	expect(heights.panel).toBeGreaterThanOrEqual(6);
});

test('below the smallest size there are none', () => {
	expect(regionsFor({columns: 59, rows: 40}, 6)).toBeUndefined();
	expect(regionsFor({columns: 200, rows: 17}, 6)).toBeUndefined();
});
