import {centsBetween} from '../../music/pitch.ts';
import {formatCents, formatCentsSpread, formatCentsWords} from '../../units/cents.ts';
import {formatHertz} from '../../units/quantities.ts';
import {type ReadableString, type ReadingContext, soundedHz, soundedNote} from './reading-context.ts';

/** Why a reading, possible in itself, is asked about before it is taken. */
export type DoubtCode =
	| 'open-pitch'
	| 'octave'
	| 'other-string'
	| 'hertz'
	| 'sign'
	| 'decimal'
	| 'unexpected'
	| 'far'
	| 'spread';

export interface Doubt {
	readonly code: DoubtCode;
	/** Clause without full stop. */
	readonly why: string;
	/** What may have been meant: an entry that would be taken. */
	readonly perhaps?: string;
}

export interface Doubted {
	readonly row: ReadableString;
	readonly context: ReadingContext;
	/** Mean of the plucks, against the target sounded that way. */
	readonly cents: number;
	readonly given: 'cents' | 'hertz' | 'note' | 'class';
	/** The bare number, if a single one was typed without sign. */
	readonly bare?: number;
	/** Largest minus smallest pluck, cents. */
	readonly range: number;
}

type Rule = (doubted: Doubted) => Doubt | undefined;

// Bounds of the questions, cents. Judgement, not measurement: strings stand 400 cents or more
// apart, a tuner and a hand scatter by 1 to 3, and one question too many costs a key press.
const farWithoutBelief = 600;
const octaveWithin = 100;
const otherStringWithin = 50;
const plucksWithin = 20;

/** The first reason to ask, or none. */
export function doubtOf(doubted: Doubted): Doubt | undefined {
	for (const rule of isExpected(doubted) ? [scattered] : rules) {
		const found = rule(doubted);
		if (found) {
			return found;
		}
	}

	return undefined;
}

const octaveOff: Rule = ({row, context, cents}) => {
	if (Math.abs(Math.abs(cents) - 1200) > octaveWithin || isComingUp(row, cents)) {
		return undefined;
	}

	const note = soundedNote(row, context);
	const way = cents > 0 ? 'above' : 'below';
	return {
		code: 'octave',
		why: `an octave ${way} ${nameOf(row)}, which should sound ${note}`,
		perhaps: `${note} ${typed(cents - Math.sign(cents) * 1200)}`.replace(/ 0$/, ''),
	};
};

const otherString: Rule = ({row, context, cents, given}) => {
	if (given === 'cents' || Math.abs(cents) <= farWithoutBelief / 2 || isComingUp(row, cents)) {
		return undefined;
	}

	const hz = soundedHz(row, context) * 2 ** (cents / 1200);
	const other = context.strings.find(
		candidate =>
			candidate.string !== row.string && Math.abs(centsBetween(hz, soundedHz(candidate, context))) <= otherStringWithin,
	);
	return (
		other && {
			code: 'other-string',
			why: `that is the pitch of ${nameOf(other)}, ${formatCentsWords(cents, 0)} of ${nameOf(row)}`,
			perhaps: `${other.string}: ${typed(centsBetween(hz, soundedHz(other, context)))}`,
		}
	);
};

/** `82.1` typed for an E2 may be hertz with the unit forgotten. */
const unitForgotten: Rule = ({row, context, bare}) => {
	if (bare === undefined || bare < 20) {
		return undefined;
	}

	const near = [row.targetHz, soundedHz(row, context)].some(hz => Math.abs(centsBetween(bare, hz)) <= octaveWithin);
	const target = formatHertz(soundedHz(row, context), 1);
	return near
		? {
				code: 'hertz',
				why: `taken as ${formatCentsWords(bare)}, but ${nameOf(row)} sounds ${target}`,
				perhaps: `${bare}hz`,
			}
		: undefined;
};

const signSlip: Rule = ({row, cents}) => {
	const {expected} = row;
	return expected && Math.abs(cents) >= 3 && Math.abs(-cents - expected.mean) <= Math.max(3, 2 * expected.sd)
		? {code: 'sign', why: expectation(row, cents), perhaps: typed(-cents)}
		: undefined;
};

/** `35` for `3.5`: only if far off as well, for a string that slipped must be reported without a fuss. */
const decimalSlip: Rule = ({row, cents}) => {
	const {expected} = row;
	if (!expected || Math.abs(cents - expected.mean) <= Math.max(25, 6 * expected.sd)) {
		return undefined;
	}

	const meant = [cents / 10, cents * 10].find(
		other => Math.abs(other - expected.mean) <= Math.max(0.1 * Math.abs(other), 2 * expected.sd),
	);
	return meant === undefined ? undefined : {code: 'decimal', why: expectation(row, cents), perhaps: typed(meant)};
};

const tooFar: Rule = ({row, cents}) => {
	const {expected} = row;
	if (expected) {
		return Math.abs(cents - expected.mean) > Math.max(50, 5 * expected.sd)
			? {code: 'unexpected', why: expectation(row, cents)}
			: undefined;
	}

	return Math.abs(cents) > farWithoutBelief && !isComingUp(row, cents)
		? {code: 'far', why: `${formatCentsWords(cents, 0)} of ${nameOf(row)} is further than a string usually strays`}
		: undefined;
};

const scattered: Rule = ({range}) =>
	range > plucksWithin
		? {
				code: 'spread',
				why: `these plucks lie ${formatCents(range, 0).replace('+', '')} cents apart, more than a tuner's scatter`,
			}
		: undefined;

const rules: readonly Rule[] = [octaveOff, otherString, unitForgotten, signSlip, decimalSlip, tooFar, scattered];

function isExpected({row: {expected}, cents}: Doubted): boolean {
	return expected !== undefined && Math.abs(cents - expected.mean) <= Math.max(5, 4 * expected.sd);
}

function isComingUp({fromSlack}: ReadableString, cents: number): boolean {
	return fromSlack === true && cents < 0;
}

function expectation({string, expected}: ReadableString, cents: number): string {
	const about = expected ? formatCentsSpread(expected) : '';
	return `${formatCents(cents)} on string ${string}, where about ${about} was expected`;
}

/** `string 6 (E2)`. */
export function nameOf({string, note}: ReadableString): string {
	return `string ${string} (${note})`;
}

/** Cents as a person would type them: `-12`, `+3.5`. */
export function typed(cents: number): string {
	return formatCents(cents).replace('−', '-').replace(/\.0$/, '');
}
