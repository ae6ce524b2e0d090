import {expect, test} from 'vitest';
import {benchOf, goalOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Deed, Story} from '../../source/session/facts.ts';

const sheet = {...defaultSheet(), openToleranceCents: 1};
const storyOf = (...deeds: readonly Deed[]): Story =>
	([{type: 'SheetFilled', sheet}, ...deeds] as const).map((deed, entry) => ({...deed, at: entry, entry}));

test('while the clamps are off, nothing finer is asked for than they will leave', () => {
	expect(benchOf(storyOf({type: 'NutOpened'})).toleranceCents).toBe(2);
	expect(benchOf(storyOf({type: 'NutOpened'}, {type: 'NutClamped'})).toleranceCents).toBe(1);
});

test('a wish that is wider than that is kept', () => {
	expect(goalOf({...sheet, openToleranceCents: 5}, 'open').toleranceCents).toBe(5);
	expect(goalOf({...sheet, openToleranceCents: 5}, 'locked').toleranceCents).toBe(5);
});
