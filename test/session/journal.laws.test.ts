import fc from 'fast-check';
import {expect, test} from 'vitest';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {evolve, stateOf} from '../../source/session/evolve.ts';
import {emptyJournal, entryCount, isStartOf, record, redo, undo} from '../../source/session/journal.ts';
import {initialState, type SessionState} from '../../source/session/state.ts';
import {anyDeed, anyJournal} from '../helpers/deeds.ts';

const entry = fc.array(anyDeed, {minLength: 1, maxLength: 3});
const clock = fc.integer({min: 0, max: 2e12});

test('undo of everything is the start', () => {
	fc.assert(
		fc.property(anyJournal, journal => {
			let back = journal;
			for (let count = entryCount(journal.story); count > 0; count--) {
				expect(back.story.length).toBeGreaterThan(0);
				back = undo(back);
			}
			expect(back.story).toEqual([]);
			expect(stateOf(back.story)).toEqual(initialState);
			expect(undo(back)).toBe(back);
		}),
	);
});

test('undo then redo is the same journal, any number of times', () => {
	fc.assert(
		fc.property(anyJournal, fc.nat({max: 20}), (journal, wanted) => {
			const steps = Math.min(wanted, entryCount(journal.story));
			let there = journal;
			for (let count = 0; count < steps; count++) there = undo(there);
			for (let count = 0; count < steps; count++) there = redo(there);
			expect(there).toEqual(journal);
		}),
	);
});

test('a new entry can be undone to exactly the story before it, and what was undone before is gone', () => {
	fc.assert(
		fc.property(anyJournal, entry, clock, (journal, deeds, now) => {
			const after = record(journal, deeds, now);
			expect(after.story.length).toBe(journal.story.length + deeds.length);
			expect(after.undone).toEqual([]);
			expect(redo(after)).toBe(after);
			expect(undo(after).story).toEqual(journal.story);
		}),
	);
});

test('time never runs backwards in a story, whatever the clock does; entries count 1, 2, 3', () => {
	fc.assert(
		fc.property(fc.array(fc.tuple(entry, clock), {maxLength: 15}), entries => {
			const {story} = entries.reduce((journal, [deeds, now]) => record(journal, deeds, now), emptyJournal);
			for (const [index, fact] of story.entries()) {
				if (index > 0) expect(fact.at).toBeGreaterThanOrEqual(story[index - 1]!.at);
			}
			expect([...new Set(story.map(fact => fact.entry))]).toEqual(entries.map((_, index) => index + 1));
			expect(entryCount(story)).toBe(entries.length);
		}),
	);
});

test('an entry of no deeds is no entry', () => {
	expect(record(emptyJournal, [], 5)).toBe(emptyJournal);
});

test('a story is the start of itself and of what it becomes, never of what it was', () => {
	fc.assert(
		fc.property(anyJournal, entry, clock, ({story}, deeds, now) => {
			const longer = record({story, undone: []}, deeds, now).story;
			const copy: typeof story = JSON.parse(JSON.stringify(story));
			expect(isStartOf(copy, story)).toBe(true);
			expect(isStartOf(copy, longer)).toBe(true);
			expect(isStartOf(longer, copy)).toBe(false);
		}),
	);
});

test('any story replays, and replay is the live state', () => {
	fc.assert(
		fc.property(anyJournal, ({story}) => {
			let live: SessionState = initialState;
			for (const [index, fact] of story.entries()) {
				live = evolve(live, fact);
				expect(live.facts).toBe(index + 1);
				expect(live.lastTouch).toBeLessThanOrEqual(index);
			}
			expect(stateOf(story)).toEqual(live);
		}),
	);
});

test('no reading is older than its string has been touched, and plucks are never lost', () => {
	fc.assert(
		fc.property(anyJournal, ({story}) => {
			for (const session of Object.values(stateOf(story).strings)) {
				for (const reading of Object.values(session.readings)) {
					expect(reading.touches).toBeLessThanOrEqual(session.touches);
					expect(reading.cents.at(-1)).toBe(reading.last.cents);
				}
			}
		}),
	);
});

test('a zero has no sign in a story: what is stored comes back as it was', () => {
	const sheet = {...defaultSheet(), plateWishMm: -0};
	const deeds = [
		{type: 'SheetFilled', sheet},
		{type: 'PitchRead', string: 4, how: 'open', cents: -0, entered: '-0'},
	] as const;
	const {story} = record(emptyJournal, deeds, 1000);
	expect(JSON.parse(JSON.stringify(story))).toEqual(story);
	expect(story[1]).toMatchObject({cents: 0});
	const plain = defaultSheet();
	const [fact] = record(emptyJournal, [{type: 'SheetFilled', sheet: plain}], 0).story;
	expect(fact?.type === 'SheetFilled' && fact.sheet).toBe(plain);
});
