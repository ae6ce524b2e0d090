import {endsOf, type SetString, setsFor} from '../catalog/sets.ts';
import {cleanEntry, digitsForLetters} from './clean.ts';
import {doubt, type Entry, longestEntry, refuse, tooLong} from './entry.ts';
import {readGauge} from './gauge.ts';

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

	// What is suggested is the whole line, for the whole line stands in the entry.
	const repaired = (line: string, word: string) => {
		const perhaps = digitsForLetters(line);
		const isTaken = perhaps !== undefined && readGauges(perhaps, count).kind !== 'refused';
		const wrong = isTaken ? 'a letter (O, l or I) stands where a digit may be meant' : `${word} is no gauge`;
		const code = isTaken ? 'letter-for-digit' : 'not-understood';
		return refuse({code, read: entered, wrong, allowed, example, ...(isTaken && {perhaps})});
	};

	const gauges: SetString[] = [];
	let question: string | undefined;
	const words = wordsOf(text);
	for (const word of words) {
		const entry = readGauge(word);
		if (entry.kind === 'refused') {
			return entry.code === 'letter-for-digit' ? repaired(text, word) : entry;
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
