import type {StringNumber} from '../../music/string-number.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import type {Deed} from '../../session/facts.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import type {Seen} from '../seen.ts';
import {type Asking, type Sitting, settled} from '../state.ts';
import {hertzWords, words} from './ear-words.ts';
import {centsWords, type HeardReading, markHeard} from './heard-reading.ts';

/** What a doubtful tone may be taken for. */
export interface HeardChoice {
	readonly string: StringNumber;
	/** `string 5 (A2) at +14.5 ±0.2`. */
	readonly said: string;
	/** What that string was expected to show. */
	readonly expected?: string;
	/** Another fret of that string whose note this is. */
	readonly fits?: number;
	readonly deeds: readonly Deed[];
}

type AskingByEar = Extract<Asking, {by: 'ear'}>;

/** A question about what was heard: the readings it may be, likeliest first. Those that cannot be stored are left out. */
export function askHeard(
	sitting: Sitting,
	readings: readonly HeardReading[],
	{
		seen,
		hz,
		isSurprise = false,
		isOpenInstead = false,
	}: {
		readonly seen: Seen;
		readonly hz: number;
		/** The string is clear, its pitch is not what was expected. */
		readonly isSurprise?: boolean;
		readonly isOpenInstead?: boolean;
	},
): Sitting {
	const choices = readings.flatMap(reading => {
		const deeds = deedsOf(reading, seen);
		return deeds.length === 0 ? [] : [choiceOf(reading, deeds, seen)];
	});
	if (choices.length === 0)
		return sitting.ear ? {...sitting, ear: {...sitting.ear, note: words.whoKnows(hertzWords(hz))}} : sitting;
	const {ear} = sitting;
	const noted = ear ? {...sitting, ear: {...ear, note: words.inQuestion(hertzWords(hz))}} : sitting;
	return withQuestion(noted, {by: 'ear', hz, choices, at: 0, isSurprise, isOpenInstead, deeds: choices[0]!.deeds});
}

/** The next choice of such a question. */
export function nextChoice(sitting: Sitting, step: 1 | -1): Sitting {
	const {asking} = sitting;
	if (asking?.by !== 'ear') return sitting;
	const count = asking.choices.length;
	const at = (asking.at + step + count) % count;
	return withQuestion(sitting, {...asking, at, deeds: asking.choices[at]!.deeds});
}

function withQuestion(sitting: Sitting, asking: AskingByEar): Sitting {
	const {choices, at, hz, isOpenInstead} = asking;
	const {said, ...known} = choices[at]!;
	const next = choices.length > 1 ? choices[(at + 1) % choices.length]!.said : undefined;
	const lead = isOpenInstead ? words.openInstead(hertzWords(hz), said) : words.question(hertzWords(hz), said, known);
	return {...settled(sitting), asking, message: {as: 'attention', text: `${lead} ${words.ways(next)}`}};
}

function deedsOf(reading: HeardReading, {stage, task, bench}: Seen): readonly Deed[] {
	const answer = stage?.answer(reading.text, task, bench, {meant: true});
	if (answer?.kind === 'deeds') return markHeard(reading, answer.deeds);
	return answer?.kind === 'question' ? markHeard(reading, answer.deedsIfMeant) : [];
}

function choiceOf(reading: HeardReading, deeds: readonly Deed[], {bench}: Seen): HeardChoice {
	const {string, how, fret} = reading;
	const note = bench.strings.find(row => row.string === string)?.note ?? '';
	const expected = bench.expectReading(string, how, fret);
	const fits = fretFitting(reading, expected);
	return {
		string,
		said: words.at(string, note, reading, centsWords(reading)),
		...(expected && {expected: formatCentsSpread(expected)}),
		...(fits !== undefined && {fits}),
		deeds,
	};
}

/** A note within this of what another fret should sound is that fret's: well inside half a fret, cents. */
const fitsWithinCents = 25;

/** The fret beside the one asked for that was pressed instead, if the note says so. */
function fretFitting({how, fret = 12, cents}: HeardReading, expected: Estimate | undefined): number | undefined {
	if (how !== 'fretted') return undefined;
	const off = cents - (expected?.mean ?? 0);
	const aside = Math.round(off / 100);
	const fits = fret + aside;
	return aside !== 0 && fits >= 1 && Math.abs(off - 100 * aside) < fitsWithinCents ? fits : undefined;
}
