import {noteName, parseNote} from '../../music/note.ts';
import {midiFromHz} from '../../music/pitch.ts';
import type {StringNumber} from '../../music/string-number.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import type {Bench} from '../bench.ts';
import type {How} from '../facts.ts';

/** What is known of a string when a reading of it is typed. */
export interface ReadableString {
	readonly string: StringNumber;
	/** Open target, `E2`. */
	readonly note: string;
	/** Open target with its wanted offset, hertz. */
	readonly targetHz: number;
	/** Cents that a reading sounded this way should show now, if there is any belief. */
	readonly expected?: Estimate;
	/** True while the string comes up from slack: any pitch below its target may be meant. */
	readonly fromSlack?: boolean;
}

export interface ReadingContext {
	/** Thinnest first. */
	readonly strings: readonly ReadableString[];
	readonly asked: StringNumber;
	readonly how: How;
	/** Fret of a fretted reading; 12 unless given. */
	readonly fret?: number;
	/** Pitch of A4, 400 to 480 Hz. */
	readonly referenceAHz: number;
}

/** The context of a reading asked for at the bench. */
export function readingContext(bench: Bench, asked: StringNumber, how: How = 'open', fret?: number): ReadingContext {
	return {
		strings: bench.strings.map(({string, note, targetHz, state}) => {
			// What is read fretted shows where the saddle stands: it is read because it may be otherwise.
			const expected = how === 'fretted' ? undefined : bench.expectReading(string, how);
			const fromSlack = state === 'slack' || state === 'off';
			return {string, note, targetHz, fromSlack, ...(expected && {expected})};
		}),
		asked,
		how,
		referenceAHz: bench.sheet.referenceAHz,
		...(fret !== undefined && {fret}),
	};
}

/** Semitones by which the sounded target stands above the open one. */
export function semitonesUp({how, fret}: Pick<ReadingContext, 'how' | 'fret'>): number {
	return how === 'open' ? 0 : how === 'harmonic' ? 12 : (fret ?? 12);
}

/** Target sounded that way, hertz. */
export function soundedHz({targetHz}: ReadableString, context: ReadingContext): number {
	return targetHz * 2 ** (semitonesUp(context) / 12);
}

/** Nearest semitone to the target sounded that way. */
export function soundedMidi(row: ReadableString, context: ReadingContext): number {
	return Math.round(midiFromHz(soundedHz(row, context), context.referenceAHz));
}

/** Name of the note sounded that way, spelled as the open note is. */
export function soundedNote(row: ReadableString, context: ReadingContext): string {
	const open = parseNote(row.note)?.midi;
	const midi = open === undefined ? soundedMidi(row, context) : open + semitonesUp(context);
	if (midi < 12 || midi > 127) {
		return row.note;
	}

	return noteName(midi, /[A-G]b/.test(row.note) ? 'flats' : 'sharps');
}
