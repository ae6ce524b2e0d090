import {gaugeThouFromMm} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {endsOf, isUsuallyWound, type SetString, setsFor} from '../catalog/sets.ts';
import {cleanEntry, decimal, decimalPattern, digitsForLetters} from './clean.ts';
import {doubt, type Entry, longestEntry, type Refused, refuse, tooLong} from './entry.ts';

/** Thousandths of an inch; thinner breaks at pitch, thicker fits no saddle. Common practice, no source. */
export const gaugeRangeThou = [6, 100] as const;

const gaugePattern = new RegExp(String.raw`^(${decimalPattern})\s*(mm|in|inch|")?\s*(w|wound|p|plain)?\s*(mm)?$`);
const allowedOne = `a gauge from ${gaugeRangeThou[0]} to ${gaugeRangeThou[1]} thousandths of an inch, or in mm, w for wound, p for plain`;

/**
 * One gauge: `9`, `.009`, `009`, `0.23mm`, `24w`, `18p`. Bare decimals need no
 * unit: below 0.12 they can only be inches, up to 2.6 only millimetres. Without
 * `w` or `p`, what is usual for the gauge.
 */
export function readGauge(typed: string): Entry<SetString> {
	const {text, entered, meant} = cleanEntry(typed);
	const slip = (code: Refused['code'], wrong: string, perhaps?: string) =>
		refuse({code, read: entered, wrong, allowed: allowedOne, example: '42w', ...(perhaps !== undefined && {perhaps})});
	if (entered.length > longestEntry) {
		return tooLong(entered, allowedOne, '42w');
	}

	if (text === '') {
		return slip('empty', 'a gauge was expected');
	}

	const value = gaugeOf(text);
	if (value === undefined) {
		const repaired = digitsForLetters(text);
		return repaired !== undefined && gaugeOf(repaired) !== undefined
			? slip('letter-for-digit', 'a letter (O, l or I) stands where a digit may be meant', repaired)
			: slip('not-understood', 'this cannot be read as a gauge');
	}

	const {gaugeThou} = value;
	if (!(gaugeThou >= gaugeRangeThou[0] && gaugeThou <= gaugeRangeThou[1])) {
		const [side, bound] = gaugeThou < gaugeRangeThou[0] ? ['below', gaugeRangeThou[0]] : ['above', gaugeRangeThou[1]];
		return slip('out-of-range', `${formatTrimmed(gaugeThou, 1)} thousandths is ${side} ${bound}`);
	}

	const why = unusual(value);
	return why !== undefined && !meant
		? {kind: 'doubtful', said: doubt(entered, why), value, entered}
		: {kind: 'value', value, entered};
}

/**
 * All gauges of a set in one line, thin or thick first (`9 11 16 24w 32 42`,
 * `9-11-16-24-32-42`), or a set by name or by its ends (`tens`, `10-46`).
 * Answer thinnest first.
 *
 * @param count Strings of the instrument.
 */
export function readGauges(typed: string, count: number): Entry<readonly SetString[]> {
	const {text, entered, meant} = cleanEntry(typed);
	const sets = setsFor(count);
	const example = sets[0]?.strings.map(({gaugeThou, wound}) => `${gaugeThou}${wound ? 'w' : ''}`).join(' ') ?? '';
	const allowed = `${count} gauges, thin or thick first, or a set: ${sets.map(({strings}) => endsOf(strings)).join(', ')}`;
	if (entered.length > longestEntry) {
		return tooLong(entered, allowed, example);
	}

	if (text === '') {
		return refuse({code: 'empty', read: entered, wrong: 'gauges were expected', allowed, example});
	}

	const known = setNamed(text.toLowerCase(), count);
	if (known !== undefined) {
		return {kind: 'value', value: known, entered};
	}

	const gauges: SetString[] = [];
	let question: string | undefined;
	const words = wordsOf(text);
	for (const word of words) {
		const entry = readGauge(word);
		if (entry.kind === 'refused') {
			return entry;
		}

		question ??= entry.kind === 'doubtful' ? entry.said : undefined;
		gauges.push(entry.value);
	}

	if (gauges.length !== count) {
		const wrong = `${gauges.length} gauges for ${count} strings`;
		return refuse({code: 'wrong-count', read: entered, wrong, allowed, example});
	}

	const [first, last] = [gauges[0]?.gaugeThou ?? 0, gauges.at(-1)?.gaugeThou ?? 0];
	const value = first > last ? gauges.toReversed() : gauges;
	if (value.some(({gaugeThou}, index) => gaugeThou < (value[index - 1]?.gaugeThou ?? 0))) {
		question ??= doubt(entered, 'these gauges do not rise from string to string');
	}

	return question !== undefined && !meant
		? {kind: 'doubtful', said: question, value, entered}
		: {kind: 'value', value, entered};
}

function gaugeOf(text: string): SetString | undefined {
	const [, digits, unit, kind, lateUnit] = gaugePattern.exec(text.toLowerCase()) ?? [];
	if (digits === undefined || (unit !== undefined && lateUnit !== undefined)) {
		return undefined;
	}

	const number = decimal(digits);
	const isMm = unit === 'mm' || lateUnit === 'mm' || (unit === undefined && number >= 0.12 && number <= 2.6);
	const isInch = !isMm && (unit !== undefined || number < 0.12);
	// A tenth of a thousandth is finer than wire is drawn.
	const gaugeThou = isMm ? gaugeThouFromMm(number) : Math.round(number * (isInch ? 1000 : 1) * 10) / 10;
	return {gaugeThou, wound: kind === undefined ? isUsuallyWound(gaugeThou) : kind.startsWith('w')};
}

function unusual({gaugeThou, wound}: SetString): string | undefined {
	if (wound && gaugeThou < 16) {
		return `a wound string of ${formatTrimmed(gaugeThou, 1)} thousandths is unusually thin`;
	}

	return !wound && gaugeThou > 26
		? `a plain string of ${formatTrimmed(gaugeThou, 1)} thousandths is unusually thick`
		: undefined;
}

/** Commas part gauges, unless blanks do: then a comma is a decimal sign (`9,5 11,5 16`). */
function wordsOf(text: string): readonly string[] {
	const joined = text
		.replace(/(?<=[\d.,])\s+(?=(?:w|p|mm|wound|plain)(?![a-z]))/gi, '')
		.replace(/mm\s+(?=[wp](?![a-z]))/gi, 'mm');
	const byBlanks = /\s/.test(joined.replace(/,\s/g, ','));
	return joined.split(byBlanks ? /[\s;/-]+|,\s+/ : /[\s,;/-]+/).filter(Boolean);
}

const spoken: Readonly<Record<string, number>> = {eights: 8, nines: 9, tens: 10, elevens: 11, twelves: 12};

function setNamed(text: string, count: number): readonly SetString[] | undefined {
	const sets = setsFor(count);
	const named = sets.find(({name}) => name === text);
	if (named) {
		return named.strings;
	}

	const thinnest = spoken[text] ?? (/^\d+(\.5)?'?s$/.test(text) ? Number.parseFloat(text) : undefined);
	if (thinnest !== undefined) {
		return sets.find(({strings}) => strings[0]?.gaugeThou === thinnest)?.strings;
	}

	const [, thin, thick] = /^0?\.?0*(\d+(?:\.5)?)\s*(?:-|to|\s)\s*0?\.?0*(\d+)w?$/.exec(text) ?? [];
	return sets.find(({strings}) => endsOf(strings) === `${thin}-${thick}`)?.strings;
}
