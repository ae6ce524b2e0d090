import {mean, sampleStandardDeviation} from 'simple-statistics';
import type {StringNumber} from '../../music/string-number.ts';
import type {CleanEntry} from './clean.ts';
import {doubt, type Refused, type Slip} from './entry.ts';
import {type ReadableString, type ReadingContext, semitonesUp, soundedNote} from './reading-context.ts';
import {type DoubtCode, doubtOf, nameOf} from './reading-doubts.ts';
import {centsOf, soundsOpen} from './reading-pitch.ts';
import type {Token} from './reading-tokens.ts';

/** What the tuner showed, for one string, of one pluck or several. */
export interface Reading {
	readonly kind: 'reading';
	readonly string: StringNumber;
	/** Mean of the plucks, cents against the target sounded the asked way. */
	readonly cents: number;
	/** Each pluck, same meaning, in the order typed; at least one. */
	readonly readings: readonly number[];
	/** Sample standard deviation of the plucks, cents; from two plucks on. */
	readonly sdCents?: number;
	readonly entered: string;
	/** Present when the person insisted. */
	readonly meant?: true;
}

export type ReadingEntry =
	| Reading
	/** `5:` alone: go to that string. */
	| {readonly kind: 'select'; readonly string: StringNumber; readonly entered: string}
	| {readonly kind: 'slack'; readonly string: StringNumber; readonly entered: string}
	/** Possible, but only if the person means it; `reading` is then what to take. */
	| {readonly kind: 'doubtful'; readonly code: DoubtCode; readonly said: string; readonly reading: Reading}
	| Refused;

/** Beyond two octaves off, no string of a guitar can be meant. */
const furthestCents = 2400;

/** What understood plucks come to: a reading, a question, or out of all range. */
export function judge(
	tokens: readonly Token[],
	{entered, meant}: CleanEntry,
	row: ReadableString,
	context: ReadingContext,
	slip: (row: ReadableString, problem: Pick<Slip, 'code' | 'wrong'>) => Refused,
): ReadingEntry {
	const raw = tokens.map(token => centsOf(token, row, context));
	if (raw.some(cents => !(Math.abs(cents) <= furthestCents))) {
		return slip(row, {code: 'out-of-range', wrong: `more than two octaves from ${nameOf(row)}`});
	}

	const given = tokens[0]?.given ?? 'cents';
	const openSounded = soundsOpen(raw, given, context);
	// At the 12th fret a tuner may simply name the octave wrongly; at other frets nothing can be folded.
	const readings = openSounded && semitonesUp(context) === 12 ? raw.map(cents => cents + 1200) : raw;
	const reading: Reading = {
		kind: 'reading',
		string: row.string,
		cents: mean([...readings]),
		readings,
		entered,
		...(readings.length > 1 && {sdCents: sampleStandardDeviation([...readings])}),
		...(meant && {meant}),
	};
	if (meant) {
		return reading;
	}

	if (openSounded && context.how === 'fretted') {
		const why = `that is the pitch of the open string, but fretted ${nameOf(row)} should sound ${soundedNote(row, context)}`;
		return {kind: 'doubtful', code: 'open-pitch', said: doubt(entered, why), reading: {...reading, meant: true}};
	}

	const [first] = tokens;
	const bare = tokens.length === 1 && first?.given === 'cents' && !first.signed ? {bare: first.cents} : {};
	const range = Math.max(...readings) - Math.min(...readings);
	const found = doubtOf({row, context, cents: reading.cents, given, range, ...bare});
	return found
		? {
				kind: 'doubtful',
				code: found.code,
				said: doubt(entered, found.why, found.perhaps),
				reading: {...reading, meant: true},
			}
		: reading;
}
