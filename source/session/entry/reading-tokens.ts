import {parseNote, parsePitchClass} from '../../music/note.ts';
import {decimal, decimalPattern} from './clean.ts';

/** One pluck as typed: against the target, as a frequency, or against a named note. */
export type Token =
	| {readonly given: 'cents'; readonly cents: number; readonly signed: boolean}
	| {readonly given: 'hertz'; readonly hz: number}
	| {readonly given: 'note'; readonly note: string; readonly midi: number; readonly cents: number}
	| {readonly given: 'class'; readonly note: string; readonly chroma: number; readonly cents: number};

export type Tokens =
	| {readonly tokens: readonly Token[]}
	| {readonly problem: 'not-understood' | 'mixed'}
	| {readonly problem: 'ambiguous'; readonly wrong: string; readonly perhaps: string};

const end = String.raw`(?=$|[\s/;|]|,(?=[\s+-]|$))`;
const separator = /(?:[\s/;|]|,(?=[\s+-]|$))+/y;
const hertz = new RegExp(String.raw`\+?(${decimalPattern})\s*(?:hz|hertz)${end}`, 'iy');
const cents = new RegExp(
	String.raw`([+-]?)(${decimalPattern})\s*(?:cents?|cts?|c|¢)?(?:\s+(sharp|flat)(?:\s+of)?)?${end}`,
	'iy',
);
const named = new RegExp(
	String.raw`([a-g][#b]?)(\d?)(?:\s*([+-])(${decimalPattern})|\s+(${decimalPattern}))?(?:\s*(?:cents?|cts?|ct|¢))?${end}`,
	'iy',
);

/** Cuts an entry into plucks; `text` is clean, without a string's number in front. */
export function tokensOf(text: string): Tokens {
	// A blank after a sign is common ("E2 - 12"); between two readings the second keeps its sign.
	const rest = text.replace(/([+-])\s+(?=[\d.,])/g, '$1');
	const tokens: Token[] = [];
	let at = 0;
	while (at < rest.length) {
		const found = tokenAt(rest, at, tokens.at(-1));
		if (found === undefined) {
			return {problem: 'not-understood'};
		}

		if ('problem' in found) {
			return found;
		}

		tokens.push(found.token);
		at = found.end;
		separator.lastIndex = at;
		at += separator.exec(rest)?.[0].length ?? 0;
	}

	const [first] = tokens;
	if (first === undefined) {
		return {problem: 'not-understood'};
	}

	return tokens.every(({given}) => given === first.given) ? {tokens} : {problem: 'mixed'};
}

type Found = {readonly token: Token; readonly end: number} | Extract<Tokens, {problem: 'ambiguous'}> | undefined;

function tokenAt(text: string, at: number, before: Token | undefined): Found {
	const hz = matchAt(hertz, text, at);
	if (hz) {
		return {token: {given: 'hertz', hz: decimal(hz[1] ?? '')}, end: at + hz[0].length};
	}

	const number = matchAt(cents, text, at);
	if (number) {
		return centsFound(number, at, before);
	}

	const note = matchAt(named, text, at);
	return note ? noteFound(note, at) : undefined;
}

function centsFound(match: RegExpExecArray, at: number, before: Token | undefined): Found {
	const [whole, sign = '', digits = '', way] = match;
	if (sign !== '' && way !== undefined) {
		return {problem: 'ambiguous', wrong: 'a sign and a word for the same thing', perhaps: `${sign}${digits}`};
	}

	// Nobody reads thousandths of a cent: this comma was meant to part thousands.
	if (/^[1-9]\d*,\d{3}$/.test(digits)) {
		const perhaps = `${sign}${digits.replace(',', '')}`;
		return {problem: 'ambiguous', wrong: 'a comma is taken for a decimal point here', perhaps};
	}

	const size = decimal(digits);
	const value = sign === '-' || way?.toLowerCase() === 'flat' ? -size : size;
	// "E2 -12 -11.5": later plucks of the note just named.
	const token: Token =
		before?.given === 'note' || before?.given === 'class'
			? {...before, cents: value}
			: {given: 'cents', cents: value, signed: sign !== '' || way !== undefined};
	return {token, end: at + whole.length};
}

function noteFound(match: RegExpExecArray, at: number): Found {
	const [whole, letter = '', octave = '', sign = '', signed, unsigned] = match;
	const size = decimal(signed ?? unsigned ?? '0');
	const centsOff = sign === '-' ? -size : size;
	const end = at + whole.length;
	if (octave !== '') {
		const note = parseNote(`${letter}${octave}`);
		return note && {token: {given: 'note', note: note.name, midi: note.midi, cents: centsOff}, end};
	}

	const pitchClass = parsePitchClass(letter);
	if (pitchClass === undefined) {
		return undefined;
	}

	if (unsigned !== undefined) {
		const perhaps = `${pitchClass.name} +${unsigned}`;
		return {problem: 'ambiguous', wrong: 'octave or cents? Cents after a bare note need a sign', perhaps};
	}

	return {token: {given: 'class', note: pitchClass.name, chroma: pitchClass.chroma, cents: centsOff}, end};
}

function matchAt(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
	pattern.lastIndex = at;
	return pattern.exec(text);
}
