import {describe, expect, test} from 'vitest';
import {openingItems} from '../../source/shell/opening-items.ts';
import type {Opening, Wizard} from '../../source/shell/state.ts';
import {opening, presses, pressesInSitting, simplePorts, simpleSitting} from '../helpers/simple-wizard.ts';

function withKept(...names: readonly string[]) {
	const ports = simplePorts();
	for (const name of names) presses(pressesInSitting(simpleSitting(ports), ports, `${name}\r`), ports, 'l');
	return {ports, first: opening(ports)};
}

function isOpening(wizard: Wizard): Opening {
	if (wizard.screen !== 'opening') throw new RangeError(`isOpening: expected the first screen, got ${wizard.screen}`);
	return wizard;
}

describe('the first screen', () => {
	test('offers a new set-up and practice when nothing is kept', () => {
		const ports = simplePorts();
		expect(openingItems(opening(ports)).map(({kind}) => kind)).toEqual(['new', 'practice']);
		expect(pressesInSitting(opening(ports), ports, 'enter').isStored).toBe(false);
	});

	test('offers to go on with what was left unfinished, first', () => {
		const {ports, first} = withKept('Blue one', 'Red one');
		expect(openingItems(first).map(({kind}) => kind)).toEqual(['resume', 'new', 'practice', 'kept', 'kept']);
		const sitting = pressesInSitting(first, ports, 'enter');
		expect(sitting.journal.story.at(-1)).toMatchObject({sheet: {name: 'Red one'}});
	});

	test('opens a line by its number', () => {
		const {ports, first} = withKept('Blue one', 'Red one');
		expect(pressesInSitting(first, ports, '5').journal.story.at(-1)).toMatchObject({sheet: {name: 'Blue one'}});
	});

	test('deletes after a question only', () => {
		const {ports, first} = withKept('Blue one');
		const asked = presses(first, ports, 'down', 'down', 'down', 'x');
		expect(isOpening(asked).message?.text).toContain('Delete this set-up of “Blue one”');
		expect(isOpening(presses(asked, ports, 'n')).kept).toHaveLength(1);
		expect(isOpening(presses(asked, ports, 'enter')).kept).toHaveLength(1);
		expect(isOpening(presses(asked, ports, 'y')).kept).toHaveLength(0);
	});

	test('renames the marked guitar', () => {
		const {ports, first} = withKept('Blue one');
		const named = presses(first, ports, 'n', 'ctrl+u', 'Quick green one\r');
		expect(isOpening(named).kept[0]).toMatchObject({guitarName: 'Quick green one'});
		expect(isOpening(presses(first, ports, 'n', 'ctrl+u', 'enter')).message?.text).toContain('The name is empty');
	});

	test('starts another set-up of the marked guitar from what was last said about it', () => {
		const {ports, first} = withKept('Blue one');
		const sitting = pressesInSitting(first, ports, 's');
		expect(sitting.guitarId).toBe(first.kept[0]!.guitarId);
		expect(sitting.id).not.toBe(first.kept[0]!.id);
		expect(sitting.journal.story).toMatchObject([{type: 'SheetFilled', sheet: {name: 'Blue one'}}]);
	});

	test('marks no line beyond the list', () => {
		const {ports, first} = withKept('Blue one');
		expect(isOpening(presses(first, ports, 'up', 'pageup')).at).toBe(0);
		expect(isOpening(presses(first, ports, 'pagedown', 'pagedown')).at).toBe(3);
	});
});
