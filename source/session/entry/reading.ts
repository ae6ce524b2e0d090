import {mean, sampleStandardDeviation} from 'simple-statistics';
import {nearestNote} from '../../music/note.ts';
import {centsBetween, frequencyHz, midiFromHz} from '../../music/pitch.ts';
import type {StringNumber} from '../../music/string-number.ts';
import {formatHertz} from '../../units/quantities.ts';
import type {Deed, How} from '../facts.ts';
import {type CleanEntry, cleanEntry, digitsForLetters} from './clean.ts';
import {doubt, longestEntry, type Refused, refuse, type Slip, tooLong} from './entry.ts';
import {type ReadableString, type ReadingContext, semitonesUp, soundedHz, soundedNote} from './reading-context.ts';
import {type DoubtCode, doubtOf, nameOf} from './reading-doubts.ts';
import {type Token, tokensOf} from './reading-tokens.ts';

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
const mostPlucks = 12;

/**
 * Reads what a person typed for a pluck: cents (`-12`, `3,5`), hertz
 * (`82.1hz`), a note with or without octave and cents (`E2 -12`, `E -12`),
 * several plucks (`-12 -11.5` or `-12/-11.5`), another string first
 * (`5: -12`), another string alone (`5:`), `slack`. Pure and total: whatever
 * the text, there is an answer.
 *
 * Bare cents are against the string's target; cents with a note are against
 * that note at the reference A. For a harmonic or fretted 12th, pitches refer
 * to the octave that sounds. An octave too low is taken for the harmonic, for
 * the open string differs from it by a quarter of a cent at most; for a fretted
 * note it is asked about, for the open string may have been plucked.
 */
export function readReading(typed: string, context: ReadingContext): ReadingEntry {
	const clean = cleanEntry(typed);
	const row = context.strings.find(({string}) => string === context.asked) ?? context.strings[0];
	if (row === undefined) {
		return refuse({
			code: 'no-such-string',
			read: clean.entered,
			wrong: 'there are no strings',
			allowed: '-',
			example: '-',
		});
	}

	if (clean.text.length > longestEntry) {
		const {allowed, example} = allowedFor(row, context);
		return tooLong(clean.entered, allowed, example);
	}

	const entry = readClean(clean, row, context);
	return entry.kind === 'refused' ? (repaired(clean, row, context) ?? entry) : entry;
}

/** One fact per pluck: averaging is for those who know how the tuner scatters. */
export function pitchReads(reading: Reading, how: How, fret?: number): readonly Deed[] {
	const {string, readings, entered, meant} = reading;
	return readings.map(cents => ({
		type: 'PitchRead',
		string,
		how,
		cents,
		entered,
		...(fret !== undefined && {fret}),
		...(meant && {meant}),
	}));
}

function readClean(clean: CleanEntry, asked: ReadableString, context: ReadingContext): ReadingEntry {
	const {text, entered} = clean;
	const slip = (row: ReadableString, problem: Pick<Slip, 'code' | 'wrong' | 'perhaps'>): Refused =>
		refuse({read: entered, ...allowedFor(row, context), ...problem});
	const [, prefix, rest] = /^(?:string\s*)?(\d+)\s*:\s*(.*)$/i.exec(text) ?? [];
	const row = prefix === undefined ? asked : context.strings.find(({string}) => string === Number(prefix));
	if (row === undefined) {
		const count = context.strings.length;
		return slip(asked, {
			code: 'no-such-string',
			wrong: `there is no string ${prefix?.slice(0, 4)}, strings count from 1 (thinnest) to ${count}`,
		});
	}

	const body = rest ?? text;
	const {string} = row;
	if (body === '') {
		return prefix === undefined
			? slip(row, {code: 'empty', wrong: 'a reading was expected'})
			: {kind: 'select', string, entered};
	}

	if (/^slack$/i.test(body)) {
		return {kind: 'slack', string, entered};
	}

	const found = /^in tune$/i.test(body) ? tokensOf('0') : tokensOf(body);
	if ('problem' in found) {
		return found.problem === 'ambiguous'
			? slip(row, {
					code: 'ambiguous',
					wrong: found.wrong,
					perhaps: `${prefix === undefined ? '' : `${prefix}: `}${found.perhaps}`,
				})
			: slip(row, {code: found.problem, wrong: wrongOf[found.problem]});
	}

	if (found.tokens.length > mostPlucks) {
		return slip(row, {code: 'too-many', wrong: `more than ${mostPlucks} plucks at once`});
	}

	return judge(found.tokens, clean, row, context, slip);
}

const wrongOf = {
	'not-understood': 'this cannot be read as a pitch',
	mixed: 'these plucks are given in different ways',
} as const;

function judge(
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

function centsOf(token: Token, row: ReadableString, context: ReadingContext): number {
	const targetHz = soundedHz(row, context);
	switch (token.given) {
		case 'cents':
			return token.cents;
		case 'hertz':
			return token.hz > 0 ? centsBetween(token.hz, targetHz) : Number.NEGATIVE_INFINITY;
		case 'note':
			return token.cents + centsBetween(frequencyHz(token.midi, context.referenceAHz), targetHz);
		case 'class': {
			// The octave is chosen with the cents in it, so that "Eb +90" is the E flat just below E.
			// A string on its way up is taken to stand below its target rather than far above.
			const onItsWay = row.fromSlack ? 4 : 0;
			const near = midiFromHz(targetHz, context.referenceAHz) - token.cents / 100 - onItsWay;
			const {midi} = nearestNote({name: token.note, chroma: token.chroma}, near);
			return token.cents + centsBetween(frequencyHz(midi, context.referenceAHz), targetHz);
		}
	}
}

/** Given as a pitch, an octave (or a fret's worth) too low, as if the open string had been plucked. */
function soundsOpen(cents: readonly number[], given: Token['given'], context: ReadingContext): boolean {
	if (context.how === 'open' || (given !== 'hertz' && given !== 'note')) {
		return false;
	}

	const up = 100 * semitonesUp(context);
	return cents.every(each => Math.abs(each + up) <= (up === 1200 ? 600 : 50));
}

function allowedFor(row: ReadableString, context: ReadingContext): Pick<Slip, 'allowed' | 'example'> {
	const note = soundedNote(row, context);
	const hz = formatHertz(soundedHz(row, context), 1).replace(' Hz', 'hz');
	const other = row.string > 1 ? row.string - 1 : 2;
	return {
		allowed: `cents (-12), hertz (${hz}), a note (${note} -12), another string first (${other}: -12), or slack`,
		example: '-12',
	};
}

/** `1O`: if it would be a reading with digits for letters, say so. */
function repaired(clean: CleanEntry, row: ReadableString, context: ReadingContext): Refused | undefined {
	const text = digitsForLetters(clean.text);
	if (text === undefined || readClean({...clean, text}, row, context).kind === 'refused') {
		return undefined;
	}

	return refuse({
		code: 'letter-for-digit',
		read: clean.entered,
		wrong: 'a letter (O, l or I) stands where a digit may be meant',
		perhaps: text,
		...allowedFor(row, context),
	});
}
