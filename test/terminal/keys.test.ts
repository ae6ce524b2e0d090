import {expect, test} from 'vitest';
import {type Binding, bindingFor, helpLines, hintLine} from '../../source/terminal/keys.ts';
import {textOf, widthOf} from '../../source/terminal/line.ts';

const bindings: readonly Binding<string>[] = [
	{strokes: ['enter'], hint: 'store', help: 'stores what is typed', command: 'submit'},
	{strokes: [' ', 'p'], hint: 'pluck', help: 'lets the simulated hands do it', command: 'practise'},
	{strokes: ['u', 'ctrl+u'], hint: 'take back', help: 'takes the last entry back', command: 'undo'},
	{strokes: ['ctrl+c'], help: 'leaves', command: 'leave'},
];

test('any of its strokes finds a binding', () => {
	expect(bindingFor(bindings, 'p')?.command).toBe('practise');
	expect(bindingFor(bindings, 'ctrl+c')?.command).toBe('leave');
	expect(bindingFor(bindings, 'x')).toBeUndefined();
});

test('the hint bar shows the most important keys and never runs over', () => {
	expect(textOf(hintLine(bindings, 60))).toBe('Enter store   Space pluck   u take back');
	for (let width = 0; width < 60; width++) expect(widthOf(hintLine(bindings, width))).toBeLessThanOrEqual(width);
	expect(textOf(hintLine(bindings, 14))).toBe('Enter store');
});

test('a pinned hint stays when room is short', () => {
	const pinned = [
		...bindings,
		{strokes: ['?'], hint: 'help', help: 'shows this', command: 'help', isPinned: true},
	] as const;
	expect(textOf(hintLine(pinned, 30))).toBe('Enter store   ? help');
});

test('the help names every key of the table', () => {
	const help = helpLines(bindings, 40).map(textOf).join('\n');
	for (const {help: words} of bindings) expect(help).toContain(words);
	expect(help).toMatch(/^Space p +lets/m);
	expect(help).toMatch(/^Ctrl-C +leaves/m);
});
