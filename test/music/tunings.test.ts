import {describe, expect, test} from 'vitest';
import {parseNote} from '../../source/music/note.ts';
import {type TuningId, tuningOf, tunings, tuningsFor} from '../../source/music/tunings.ts';

const midis = (id: TuningId) => tunings.find(tuning => tuning.id === id)!.notes.map(note => parseNote(note)!.midi);

describe.each(tunings)('$id', ({id, notes}) => {
	test('has sound names in their usual spelling, thinnest first, falling', () => {
		const pitches = notes.map(note => parseNote(note));
		expect(pitches.map(pitch => pitch?.name)).toEqual(notes);
		expect(id.startsWith(`${notes.length}-`)).toBe(true);
		for (const [index, pitch] of pitches.slice(1).entries()) {
			expect(pitch!.midi).toBeLessThan(pitches[index]!.midi);
		}
	});
});

test.each([
	['6-half-step-down', '6-standard', 1],
	['6-whole-step-down', '6-standard', 2],
	['6-drop-c-sharp', '6-drop-d', 1],
	['6-drop-c', '6-drop-d', 2],
	['6-drop-b', '6-drop-d', 3],
	['6-c-standard', '6-standard', 4],
	['6-b-standard', '6-standard', 5],
	['7-half-step-down', '7-standard', 1],
	['7-whole-step-down', '7-standard', 2],
	['7-drop-g-sharp', '7-drop-a', 1],
	['7-drop-g', '7-drop-a', 2],
	['8-half-step-down', '8-standard', 1],
	['8-drop-e-flat', '8-drop-e', 1],
] as const)('%s is %s lowered by %d semitones', (lower, higher, semitones) => {
	expect(midis(lower)).toEqual(midis(higher).map(midi => midi - semitones));
});

test.each([
	['6-drop-d', '6-standard'],
	['7-drop-a', '7-standard'],
	['8-drop-e', '8-standard'],
] as const)('%s is %s with the lowest string alone a whole step down', (dropped, standard) => {
	expect(midis(dropped)).toEqual(
		midis(standard).map((midi, index, all) => (index === all.length - 1 ? midi - 2 : midi)),
	);
});

test('every count of strings has a standard first, and names are told apart within a count', () => {
	for (const count of [6, 7, 8]) {
		const names = tuningsFor(count).map(({name}) => name);
		expect(names[0]).toBe('standard');
		expect(new Set(names).size).toBe(names.length);
	}
});

test('tuningOf() knows a tuning by its notes', () => {
	expect(tuningOf(['E4', 'B3', 'G3', 'D3', 'A2', 'D2'])?.name).toBe('drop D');
	expect(tuningOf(['E4', 'B3'])).toBeUndefined();
});
