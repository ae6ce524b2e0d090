import {expect, test} from 'vitest';
import {colourDepthOf, meanings, themeFor} from '../../source/terminal/theme.ts';

// WCAG 2.2 (W3C Recommendation, 2023), "relative luminance" and "contrast ratio".
function luminance(hex: string): number {
	const [red, green, blue] = [1, 3, 5].map(at => {
		const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
		return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
	});
	return 0.2126 * red! + 0.7152 * green! + 0.0722 * blue!;
}

test('the contrast formula gives the published extremes: black on white is 21 to 1', () => {
	expect((luminance('#ffffff') + 0.05) / (luminance('#000000') + 0.05)).toBeCloseTo(21, 9);
});

test('every rich colour has a contrast of at least 4 to 1 on black and on white', () => {
	const colours = meanings.flatMap(meaning => themeFor('true')[meaning].color ?? []);
	expect(colours.length).toBeGreaterThanOrEqual(5);
	for (const colour of colours) {
		const light = luminance(colour) + 0.05;
		expect(light / 0.05, `${colour} on black`).toBeGreaterThan(4);
		expect(1.05 / light, `${colour} on white`).toBeGreaterThan(4);
	}
});

test('without colour no meaning has one, and those that must be noticed still look different', () => {
	const theme = themeFor('none');
	for (const meaning of meanings) expect(theme[meaning].color).toBeUndefined();
	for (const meaning of ['strong', 'attention', 'danger', 'quiet', 'accent', 'marked'] as const)
		expect(theme[meaning], meaning).not.toEqual(theme.plain);
});

test('sixteen colours come from the palette of the terminal by name', () => {
	for (const meaning of meanings) expect(themeFor('16')[meaning].color ?? 'green').toMatch(/^[a-z]+$/);
});

test('NO_COLOR counts when set and not empty', () => {
	expect(colourDepthOf({NO_COLOR: '1'}, 24)).toBe('none');
	expect(colourDepthOf({NO_COLOR: ''}, 24)).toBe('true');
	expect([1, 4, 8, 24].map(bits => colourDepthOf({}, bits))).toEqual(['none', '16', '256', 'true']);
});
