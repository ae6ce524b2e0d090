import fc from 'fast-check';
import {expect, test} from 'vitest';
import {type Edit, edits, emptyEntry, entryLimit, entryOf, insert} from '../../source/terminal/entry.ts';

test('typing goes in at the cursor', () => {
	const typed = insert(edits.left(edits.left(insert(emptyEntry, '1.5'))), '2');
	expect(typed).toEqual({text: '12.5', cursor: 2});
});

test('a pasted line feed or tab becomes a space, other control characters go', () => {
	expect(insert(emptyEntry, 'E2\t-12\r\n\u0007').text).toBe('E2 -12 ');
});

test('a word is rubbed out with the spaces behind it', () => {
	expect(edits['rub-word'](entryOf('5: -12  '))).toEqual({text: '5: ', cursor: 3});
});

test('a character of two units is crossed and rubbed out whole', () => {
	expect(edits.backspace(entryOf('a🎸'))).toEqual({text: 'a', cursor: 1});
	expect(edits.left(entryOf('🎸')).cursor).toBe(0);
});

test('whatever is typed and edited, the cursor stands within the text and the text within its limit', () => {
	const step = fc.oneof(
		fc.constantFrom(...(Object.keys(edits) as Edit[])),
		fc.string({unit: 'grapheme', maxLength: 80}),
	);
	fc.assert(
		fc.property(fc.array(step, {maxLength: 40}), steps => {
			const end = steps.reduce(
				(entry, next) => (Object.hasOwn(edits, next) ? edits[next as Edit](entry) : insert(entry, next)),
				emptyEntry,
			);
			expect(end.cursor).toBeGreaterThanOrEqual(0);
			expect(end.cursor).toBeLessThanOrEqual(end.text.length);
			expect(end.text.length).toBeLessThanOrEqual(entryLimit);
		}),
	);
});
