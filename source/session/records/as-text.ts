import {formatCents, formatCentsSpread} from '../../units/cents.ts';
import {formatLength} from '../../units/length.ts';
import {formatNumber} from '../../units/number.ts';
import {formatCount, formatForce} from '../../units/quantities.ts';
import {diagnosisWords} from '../report/sections.ts';
import type {InstrumentSheet} from '../sheet.ts';
import type {Comparison, StringComparison} from './compare.ts';
import type {Recheck} from './recheck.ts';
import {words} from './words.ts';

/** Two set-ups side by side, as plain lines. */
export function comparisonText(comparison: Comparison, {units}: Pick<InstrumentSheet, 'units'>): readonly string[] {
	const {days, strings, springs, actionMm, totalN, tailDriftMm} = comparison;
	return [
		words.between(formatCount(days, 'day')),
		...strings.map(row => stringLine(row, units)),
		...(tailDriftMm === undefined ? [] : [words.tail(formatLength(tailDriftMm, units, {signed: true}))]),
		...(springs === 0 ? [] : [words.springs(formatNumber(springs, 0, {signed: true}))]),
		...(actionMm === 0 ? [] : [words.action(formatLength(actionMm, units, {signed: true}))]),
		words.total(formatForce(totalN, units, {signed: true})),
	];
}

function stringLine(row: StringComparison, units: InstrumentSheet['units']): string {
	const {string, isOther, driftCents, intonationCents, saddleMm} = row;
	if (isOther) return words.other(String(string), formatForce(row.tensionN, units, {signed: true}));
	const parts = [
		driftCents === undefined ? words.noDrift : words.drift(formatCents(driftCents)),
		...(intonationCents === undefined ? [] : [words.intonation(formatCents(intonationCents))]),
		...(saddleMm === undefined ? [] : [words.saddle(formatLength(saddleMm, units, {signed: true}))]),
	];
	return words.string(String(string), parts.join(', '));
}

/** What a re-check found, as plain lines: the verdict first. */
export function recheckText({verdict, diagnosis, strings}: Recheck): readonly string[] {
	const said =
		diagnosis.verdict === 'sound'
			? words[verdict === 'settling' ? 'usualSettling' : 'asLeft']
			: `${words.verdicts[verdict]}: ${diagnosisWords(diagnosis)}.`;
	return [said, ...recheckRows(strings)];
}

/** Yesterday's expectation beside today's reading, string by string. */
export function recheckRows(strings: Recheck['strings']): readonly string[] {
	return strings.map(({string, expected, readCents}) =>
		words.row(
			String(string),
			expected ? formatCentsSpread(expected) : words.unknown,
			readCents === undefined ? words.unknown : formatCents(readCents),
		),
	);
}
