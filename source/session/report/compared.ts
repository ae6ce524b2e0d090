import {formatLengthSpread} from '../../units/length.ts';
import {formatCount, formatForce, formatForceSpread} from '../../units/quantities.ts';
import {formatTurns, formatTurnsSpread} from '../../units/turns.ts';
import type {Compared, ForecastCompared} from '../set-change-compared.ts';
import type {InstrumentSheet} from '../sheet.ts';
import {words} from './words.ts';

/** Label, and what was foreseen beside what came true. */
export function comparedPairs(
	{rows, springsForeseen, springsFitted}: ForecastCompared,
	units: InstrumentSheet['units'],
): readonly (readonly [label: string, value: string])[] {
	const {labels, value} = words.compared;
	const springs = (count: number) => formatCount(count, ...words.compared.springs);
	return [
		...rows.map(row => {
			const [foreseen, came] = shown(row, units);
			return [labels[row.what], value(foreseen, came, words.compared[row.agrees ? 'agrees' : 'differs'])] as const;
		}),
		[
			labels.springs,
			value(
				springs(springsForeseen),
				springs(springsFitted),
				words.compared[springsForeseen === springsFitted ? 'agrees' : 'differs'],
			),
		],
	];
}

/** The same, one line each. */
export function comparedLines(compared: ForecastCompared, units: InstrumentSheet['units']): readonly string[] {
	return comparedPairs(compared, units).map(([label, value]) => `${label}: ${value}`);
}

function shown({unit, foreseen, came}: Compared, units: InstrumentSheet['units']): readonly [string, string] {
	switch (unit) {
		case 'N':
			return [formatForceSpread(foreseen, units), formatForce(came.mean, units)];
		case 'turns':
			return [formatTurnsSpread(foreseen), formatTurns(came.mean)];
		case 'mm':
			return [formatLengthSpread(foreseen, units, {signed: true}), formatLengthSpread(came, units, {signed: true})];
	}
}
