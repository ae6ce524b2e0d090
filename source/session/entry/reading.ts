import {formatHertz} from '../../units/quantities.ts';
import type {Deed, How} from '../facts.ts';
import {type CleanEntry, cleanEntry, digitsForLetters} from './clean.ts';
import {longestEntry, type Refused, refuse, type Slip, tooLong} from './entry.ts';
import {type ReadableString, type ReadingContext, soundedHz, soundedNote} from './reading-context.ts';
import {judge, type Reading, type ReadingEntry} from './reading-judge.ts';
import {tokensOf} from './reading-tokens.ts';

export type {Reading, ReadingEntry} from './reading-judge.ts';

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
