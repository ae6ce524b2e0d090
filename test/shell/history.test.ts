import {expect, test} from 'vitest';
import {emptyJournal, record} from '../../source/session/journal.ts';
import type {Deed} from '../../source/session/facts.ts';
import {lessonOf} from '../../source/session/lesson.ts';
import {expectationLines, historyLines, recheckLines} from '../../source/shell/history.ts';
import {withLesson} from '../../source/shell/learned.ts';
import {filled, opened, read} from '../helpers/deeds.ts';
import {storeAt} from '../helpers/open-store.ts';
import {temporaryFolder} from '../helpers/temporary.ts';

const day = 24 * 3600 * 1000;
const start = 1_769_850_605_000;
const six = [1, 2, 3, 4, 5, 6] as const;
const all = (cents: (string: number) => number): readonly Deed[] => six.map(string => read(string, cents(string)));

/** Two set-ups of one guitar, thirty days apart; the first one clamped and taught. */
function twoVisits() {
	let clock = start;
	const store = storeAt(temporaryFolder(), () => clock);
	const keep = (id: string, deeds: readonly Deed[]) => {
		const journal = deeds.reduce((before, deed, at) => record(before, [deed], clock + 1000 * at), emptyJournal);
		expect(store.save(id, journal).ok).toBe(true);
		return journal.story;
	};
	const first = store.create({name: 'Old black one'});
	const story = keep(first.id, [
		filled,
		{type: 'StringFitted', string: 3},
		{type: 'PegTurned', string: 3},
		...all(() => 0),
		opened,
		...all(() => 0),
		{type: 'NutClamped'},
		...all(() => 3),
	]);
	store.saveLearned(first.guitarId, withLesson(undefined, first.id, lessonOf(story), clock));
	clock += 30 * day;
	const second = store.create({id: first.guitarId, name: 'Old black one'});
	keep(second.id, [filled, ...all(string => -string), ...all(string => -string)]);
	return {store, guitarId: first.guitarId};
}

test('history compares visit with visit and counts the age of the strings', () => {
	const {store, guitarId} = twoVisits();
	const text = historyLines(store, guitarId, start + 40 * day).join('\n');
	// Whole days: some seconds short of thirty, and of forty.
	expect(text).toContain('29 days between the two set-ups');
	expect(text).toContain('string 2: came in −5.0 cents from how it was left');
	expect(text).toContain('string 3 on for 39 days');
	expect(text).toContain('string 1: put on before anything was recorded');
});

test('a re-check says what is expected, takes one line of readings, and judges them', () => {
	const {store, guitarId} = twoVisits();
	expect(expectationLines(store, guitarId)[3]).toMatch(/^string 4: expected −4\.\d ±/);
	const same = recheckLines(store, guitarId, '-1 -2 -3 -4 -5 -6\n');
	expect(same.ok).toBe(true);
	expect(same.lines[0]).toMatch(/^As it was left/);
	const alike = recheckLines(store, guitarId, '7 6 5 4 3 2  7 6 5 4 3 2');
	expect(alike.lines[0]).toMatch(/^A fault, not settling: all off alike/);
});

test.each(['', '1 2 3', 'one two three four five six', '1 2 3 4 5 900'])('“%s” is no line of readings', text => {
	const {store, guitarId} = twoVisits();
	const {ok, lines} = recheckLines(store, guitarId, text);
	expect(ok).toBe(false);
	expect(lines[0]).toMatch(/allowed are cents of all 6 open strings.*For example: \+0\.5 /);
});

test('taken to another machine, history, age and what was learned of the clamps are the same', () => {
	const {store, guitarId} = twoVisits();
	const there = storeAt(temporaryFolder(), () => start + 31 * day);
	const imported = there.importGuitar(store.exportGuitar(guitarId));
	expect(imported.ok).toBe(true);
	expect(historyLines(there, guitarId, start + 40 * day)).toEqual(historyLines(store, guitarId, start + 40 * day));
	expect(there.loadLearned(guitarId)).toEqual(store.loadLearned(guitarId));
	expect(there.loadLearned(guitarId)).toMatchObject({learned: {clamp: [{}, {}, {}, {}, {}, {}]}});
	// And once more into the same place: nothing is doubled.
	expect(there.importGuitar(store.exportGuitar(guitarId))).toMatchObject({ok: true, setups: []});
});

test('a guitar without a whole set-up has no history', () => {
	const store = storeAt(temporaryFolder());
	const {guitarId} = store.create({name: 'New'});
	expect(historyLines(store, guitarId, start)).toEqual(['No set-up of this guitar got as far as its sheet.']);
});
