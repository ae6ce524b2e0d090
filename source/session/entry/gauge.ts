import {gaugeThouFromMm} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {isUsuallyWound, type SetString} from '../catalog/sets.ts';
import {type Limit, plainGauge, woundGauge} from '../limits.ts';
import {cleanEntry, decimal, decimalPattern, digitsForLetters} from './clean.ts';
import {doubt, type Entry, longestEntry, type Refused, refuse, tooLong} from './entry.ts';

const gaugePattern = new RegExp(String.raw`^(${decimalPattern})\s*(mm|in|inch|")?\s*(w|wound|p|plain)?\s*(mm)?$`);
const allowedOne = `a gauge in thousandths of an inch or mm, plain (p) from ${plainGauge.low} to ${plainGauge.high} thousandths, wound (w) from ${woundGauge.low} to ${woundGauge.high}`;

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
		return repaired !== undefined && isWithin(gaugeOf(repaired))
			? slip('letter-for-digit', 'a letter (O, l or I) stands where a digit may be meant', repaired)
			: slip('not-understood', 'this cannot be read as a gauge');
	}

	if (!isWithin(value)) {
		const {low, high} = limitOf(value);
		const side = value.gaugeThou < low ? `below ${low}` : `above ${high}`;
		const kind = value.wound ? 'wound' : 'plain';
		return slip('out-of-range', `${kind}, ${formatTrimmed(value.gaugeThou, 1)} thousandths is ${side}`);
	}

	const why = unusual(value);
	return why !== undefined && !meant
		? {kind: 'doubtful', said: doubt(entered, why), value, entered}
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

function limitOf({wound}: SetString): Limit {
	return wound ? woundGauge : plainGauge;
}

function isWithin(string: SetString | undefined): boolean {
	return string !== undefined && string.gaugeThou >= limitOf(string).low && string.gaugeThou <= limitOf(string).high;
}

function unusual({gaugeThou, wound}: SetString): string | undefined {
	if (wound && gaugeThou < 16) {
		return `a wound string of ${formatTrimmed(gaugeThou, 1)} thousandths is unusually thin`;
	}

	return !wound && gaugeThou > 26
		? `a plain string of ${formatTrimmed(gaugeThou, 1)} thousandths is unusually thick`
		: undefined;
}
