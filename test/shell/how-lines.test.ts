import {describe, expect, test} from 'vitest';
import {howLines} from '../../source/shell/how-lines.ts';
import {unicodeGlyphs} from '../../source/terminal/glyphs.ts';

const shown = (how: readonly string[], cautions: readonly string[] = [], width = 30) =>
	howLines({cautions, how}, {width, rows: 12, glyphs: unicodeGlyphs}).map(spans =>
		spans.map(({text}) => text).join(''),
	);

describe('what goes over a row is set in under what it belongs to', () => {
	test.each([
		['[ ] 4 knife edges and posts clean and undamaged', ['[ ] 4 knife edges and posts', '      clean and undamaged']],
		['3 all off, bridge supported: a block of card', ['3 all off, bridge supported: a', '  block of card']],
		['12 two rows of words that do not fit in one', ['12 two rows of words that do', '   not fit in one']],
	])('“%s”', (text, rows) => {
		expect(shown([text])).toEqual(rows);
	});

	test('a caution under its mark; a sentence, or a measure, at the edge', () => {
		expect(shown([], ['Eye protection on; face out of the line.'])).toEqual([
			`${unicodeGlyphs.attention} Eye protection on; face out`,
			'  of the line.',
		]);
		expect(shown(['648 and 629 mm are common, inches as 25.5.'])).toEqual([
			'648 and 629 mm are common,',
			'inches as 25.5.',
		]);
	});
});
