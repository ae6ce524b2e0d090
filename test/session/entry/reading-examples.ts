import {frequencyHz} from '../../../source/music/pitch.ts';
import {stringsOf} from '../../../source/music/string-number.ts';
import {tunings} from '../../../source/music/tunings.ts';
import type {ReadableString, ReadingContext} from '../../../source/session/entry/reading-context.ts';

/** A six-string in standard tuning, asked for its open sixth string (E2), nothing believed yet. */
export function context(over: Partial<ReadingContext> = {}, sixth: Partial<ReadableString> = {}): ReadingContext {
	const referenceAHz = over.referenceAHz ?? 440;
	const notes = tunings[0].notes;
	const strings = stringsOf(6).map((string, index) => {
		const note = notes[index] ?? 'E2';
		return {string, note, targetHz: frequencyHz(note, referenceAHz), ...(string === 6 && sixth)};
	});
	return {strings, asked: 6, how: 'open', referenceAHz, ...over};
}
