import {expect, test} from 'vitest';
import {nameOf, type RawKey, strokesOf} from '../../source/terminal/strokes.ts';

const none: RawKey = {
	upArrow: false,
	downArrow: false,
	leftArrow: false,
	rightArrow: false,
	pageUp: false,
	pageDown: false,
	home: false,
	end: false,
	return: false,
	escape: false,
	ctrl: false,
	shift: false,
	tab: false,
	backspace: false,
	delete: false,
	meta: false,
};

test('a chunk of fast typing is every key in it, Enter included', () => {
	expect(strokesOf('12.5\r', none)).toEqual(['1', '2', '.', '5', 'enter']);
	expect(strokesOf('-3\r\n4\n', none)).toEqual(['-', '3', 'enter', '4', 'enter']);
});

test('keys have names', () => {
	expect(strokesOf('', {...none, upArrow: true})).toEqual(['up']);
	expect(strokesOf('\r', {...none, return: true})).toEqual(['enter']);
	expect(strokesOf('', {...none, tab: true, shift: true})).toEqual(['shift+tab']);
	expect(strokesOf('c', {...none, ctrl: true})).toEqual(['ctrl+c']);
});

test('Escape followed quickly by a letter acts as neither', () => {
	expect(strokesOf('q', {...none, meta: true})).toEqual([]);
});

test('keys are printed as they are engraved', () => {
	expect(['enter', 'ctrl+c', ' ', 'u', 'shift+tab'].map(nameOf)).toEqual([
		'Enter',
		'Ctrl-C',
		'Space',
		'u',
		'Shift-Tab',
	]);
});
