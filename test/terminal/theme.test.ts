import {expect, test} from 'vitest';
import {colourDepthOf, meanings, themeFor} from '../../source/terminal/theme.ts';

/**
 * Red, green and blue of a place in the 256-colour palette: a cube of
 * 6 x 6 x 6 from 16, then 24 greys from 232.
 * @see xterm, 256colres.pl: steps 0, 95, 135, 175, 215, 255; greys 8 + 10 n.
 */
function rgbOf(colour: string): readonly number[] {
	const place = Number(/^ansi256\((\d+)\)$/.exec(colour)?.[1]);
	if (place >= 232) return Array.from({length: 3}, () => 8 + 10 * (place - 232));
	return [36, 6, 1].map(weight => [0, 95, 135, 175, 215, 255][Math.floor((place - 16) / weight) % 6]!);
}

/** WCAG 2.2 (W3C Recommendation, 2023), "relative luminance". */
function luminance(rgb: readonly number[]): number {
	const [red, green, blue] = rgb.map(value => {
		const share = value / 255;
		return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
	});
	return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

test('the contrast formula gives the published extremes: black on white is 21 to 1', () => {
	expect((luminance([255, 255, 255]) + 0.05) / (luminance([0, 0, 0]) + 0.05)).toBeCloseTo(21, 9);
	expect(rgbOf('ansi256(63)')).toEqual([0x5f, 0x5f, 0xff]);
});

test('every rich colour has a contrast of at least 4 to 1 on black and on white', () => {
	const colours = meanings.flatMap(meaning => themeFor('true')[meaning].color ?? []);
	expect(colours).toHaveLength(5);
	for (const colour of colours) {
		const light = luminance(rgbOf(colour)) + 0.05;
		expect(light / 0.05, `${colour} on black`).toBeGreaterThan(4);
		expect(1.05 / light, `${colour} on white`).toBeGreaterThan(4);
	}
});

test('sixteen colours come from the palette of the terminal by name', () => {
	for (const meaning of meanings) expect(themeFor('16')[meaning].color ?? 'green').toMatch(/^[a-z]+$/);
});

test('NO_COLOR counts when set and not empty', () => {
	expect(colourDepthOf({NO_COLOR: '1'}, 24)).toBe('none');
	expect(colourDepthOf({NO_COLOR: ''}, 24)).toBe('true');
	expect([1, 4, 8, 24].map(bits => colourDepthOf({}, bits))).toEqual(['none', '16', '256', 'true']);
});
