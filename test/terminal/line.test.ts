import {expect, test} from 'vitest';
import {cutLine, line, span, spread, textOf, toHeight, widthOf} from '../../source/terminal/line.ts';

test('a line that is too long keeps its meanings and says that it was cut', () => {
	const cut = cutLine([span('string 5 ', 'strong'), span('needs a look', 'attention')], 14);
	expect(textOf(cut)).toBe('string 5 need…');
	expect(cut.map(({as}) => as)).toEqual(['strong', 'attention']);
});

test('the right part stays, the left part gives way', () => {
	expect(textOf(spread(line('first restring'), line('41 %'), 24))).toBe('first restring      41 %');
	expect(textOf(spread(line('first restring'), line('41 %'), 12))).toBe('first…  41 %');
	for (let width = 0; width < 30; width++)
		expect(widthOf(spread(line('first restring'), line('41 %'), width))).toBeLessThanOrEqual(width);
});

test('a region has its height whatever is in it', () => {
	expect(toHeight([line('a')], 3)).toHaveLength(3);
	expect(toHeight([line('a'), line('b')], 1).map(textOf)).toEqual(['a']);
});
