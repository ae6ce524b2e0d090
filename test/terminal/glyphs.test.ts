import stringWidth from 'string-width';
import {expect, test} from 'vitest';
import {asciiGlyphs, drawsUnicode, type GlyphName, unicodeGlyphs} from '../../source/terminal/glyphs.ts';

const inBars = ['post', 'postGood', 'brick', 'mortar', 'rung', 'beyondFlat', 'beyondSharp', 'aim'] as const;

test('the ASCII set is ASCII', () => {
	for (const glyph of Object.values(asciiGlyphs)) expect(glyph).toMatch(/^[ -~]+$/);
});

test('what a bar is built of is one cell wide in both sets, and told apart in both', () => {
	for (const set of [asciiGlyphs, unicodeGlyphs]) {
		const drawn = inBars.map((name: GlyphName) => set[name]);
		for (const glyph of drawn) expect(stringWidth(glyph)).toBe(1);
		expect(new Set(drawn).size).toBe(drawn.length);
	}
});

test('Unicode is drawn unless the locale or the console says otherwise', () => {
	expect(drawsUnicode({LANG: 'en_GB.UTF-8', TERM: 'xterm-256color'})).toBe(true);
	expect(drawsUnicode({TERM: 'xterm'})).toBe(true);
	expect(drawsUnicode({LANG: 'C'})).toBe(false);
	expect(drawsUnicode({LC_ALL: 'C', LANG: 'en_GB.UTF-8'})).toBe(false);
	expect(drawsUnicode({LANG: 'en_GB.UTF-8', TERM: 'linux'})).toBe(false);
});
