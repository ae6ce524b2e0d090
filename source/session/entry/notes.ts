import {nearestNote, type Note, parseNote, parsePitchClass} from '../../music/note.ts';
import {tuningsFor} from '../../music/tunings.ts';
import {cleanEntry} from './clean.ts';
import {doubt, type Entry, longestEntry, refuse, tooLong} from './entry.ts';

/** A0 to E5: no guitar string is tuned lower or higher. Common practice, no source. */
const midiRange = [21, 76] as const;

/**
 * One target note, with octave (`F#2`) or without (`F#`: the octave nearest to
 * `near`). Answer as a scientific pitch name, spelled as typed.
 *
 * @param near The note that the string has now, or usually has.
 */
export function readNote(typed: string, near: string): Entry<string> {
	const {text, entered} = cleanEntry(typed);
	const allowed = 'a note from A0 to E5, with its octave or without';
	const slip = (code: 'empty' | 'out-of-range' | 'not-understood' | 'too-long', wrong: string) =>
		refuse({code, read: entered, wrong, allowed, example: near});
	if (text.length > longestEntry) {
		return tooLong(entered, allowed, near);
	}

	if (text === '') {
		return slip('empty', 'a note was expected');
	}

	const note = resolve(text, parseNote(near)?.midi ?? 52);
	if (note === undefined) {
		return slip('not-understood', 'this cannot be read as a note');
	}

	return isAllowed(note)
		? {kind: 'value', value: note.name, entered}
		: slip('out-of-range', `no string is tuned to ${note.name}`);
}

/**
 * The target notes of all strings in one line, either order, with octaves or
 * without (`E2 A2 D3 G3 B3 E4`, `EADGBE`, `DADGAD`), or a tuning by name
 * (`drop D`, `half-step down`). Answer thinnest first.
 *
 * @param count Strings of the instrument: 6, 7 or 8.
 */
export function readNotes(typed: string, count: number): Entry<readonly string[]> {
	const {text, entered, meant} = cleanEntry(typed);
	const known = tuningsFor(count);
	const example = known[0]?.notes.toReversed().join(' ') ?? '';
	const allowed = `${count} notes, thick or thin first, or a tuning by name (drop D)`;
	if (text.length > longestEntry) {
		return tooLong(entered, allowed, example);
	}

	if (text === '') {
		return refuse({code: 'empty', read: entered, wrong: 'notes were expected', allowed, example});
	}

	const named = known.find(({name}) => plainName(name) === plainName(text));
	if (named) {
		return {kind: 'value', value: named.notes, entered};
	}

	const usual = (known[0]?.notes ?? []).map(note => parseNote(note)?.midi ?? 0);
	const best = cuts(text, count)
		.flatMap(words => [words, words.toReversed()])
		// Thick first is how tunings are written; it wins where both orders fit alike.
		.map((words, index) => ({...placed(words, usual), thickFirst: index % 2}))
		.toSorted((a, b) => a.distance - b.distance || b.thickFirst - a.thickFirst)[0];
	if (best === undefined) {
		const words = text.split(/[\s,;/-]+/).filter(Boolean);
		const bad = words.find(word => resolve(word, 52) === undefined);
		const wrong =
			bad !== undefined && words.length > 1 ? `${bad.slice(0, 12)} is no note` : `these are not ${count} notes`;
		return refuse({code: bad === undefined ? 'wrong-count' : 'not-understood', read: entered, wrong, allowed, example});
	}

	const outside = best.notes.find(note => !isAllowed(note));
	if (outside) {
		const wrong = `no string is tuned to ${outside.name}`;
		return refuse({code: 'out-of-range', read: entered, wrong, allowed, example});
	}

	const value = best.notes.map(({name}) => name);
	return doFall(best.notes) || meant
		? {kind: 'value', value, entered}
		: {
				kind: 'doubtful',
				said: doubt(entered, `${value.toReversed().join(' ')} does not rise from string to string`),
				value,
				entered,
			};
}

function resolve(word: string, near: number): Note | undefined {
	const pitchClass = parsePitchClass(word);
	return pitchClass ? nearestNote(pitchClass, near) : parseNote(word);
}

function isAllowed({midi}: Note): boolean {
	return midi >= midiRange[0] && midi <= midiRange[1];
}

function doFall(notes: readonly Note[]): boolean {
	return notes.every(({midi}, index) => midi < (notes[index - 1]?.midi ?? Infinity));
}

/** Words, thinnest first, as notes; distance in semitones from the usual tuning, far if they do not fall. */
function placed(words: readonly string[], usual: readonly number[]): {notes: readonly Note[]; distance: number} {
	// Strings are tuned down far more often than up: from nine semitones below to three above.
	const notes = words.map((word, index) => resolve(word, (usual[index] ?? 52) - 3)).filter(note => note !== undefined);
	const distance = notes.reduce((sum, {midi}, index) => sum + Math.abs(midi - (usual[index] ?? 52)), 0);
	return {notes, distance: doFall(notes) ? distance : distance + 1000};
}

/** Every way to cut the text into `count` note names: `ebgdae` may begin with E or with E flat. */
function cuts(text: string, count: number): readonly (readonly string[])[] {
	const separated = text.split(/[\s,;/-]+/).filter(Boolean);
	if (separated.length > 1) {
		return separated.length === count && separated.every(word => resolve(word, 52)) ? [separated] : [];
	}

	// Three characters a note at most; longer runs cannot be a tuning.
	return text.length > 3 * count ? [] : runCuts(text, count);
}

function runCuts(text: string, count: number): readonly (readonly string[])[] {
	if (count === 0) {
		return text === '' ? [[]] : [];
	}

	return [1, 2, 3]
		.filter(length => length <= text.length && resolve(text.slice(0, length), 52) !== undefined)
		.flatMap(length => runCuts(text.slice(length), count - 1).map(rest => [text.slice(0, length), ...rest]));
}

function plainName(name: string): string {
	return name
		.toLowerCase()
		.replace(/\s*tuning$/, '')
		.replace(/\bsharp\b/, '#')
		.replace(/\bflat\b/, 'b')
		.replace(/[\s-]+/g, '');
}
