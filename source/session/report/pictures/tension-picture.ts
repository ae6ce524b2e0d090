import {newtonsTo} from '../../../units/convert.ts';
import {formatTrimmed} from '../../../units/number.ts';
import {formatForce} from '../../../units/quantities.ts';
import type {SetUpSheet} from '../set-up-sheet.ts';
import {words} from '../words.ts';
import {rowPicture, rowsFor} from './rows.ts';
import {box, niceStep, ticks} from './svg.ts';

/** Pull of every string at pitch as bars, what was on before as outlines. */
export function tensionPicture({strings, sheet}: SetUpSheet): string {
	const inUnits = (newtons: number) => newtonsTo(newtons, sheet.units.force);
	const most = inUnits(Math.max(...strings.flatMap(({tensionN, tensionBeforeN}) => [tensionN, tensionBeforeN ?? 0])));
	const hasBefore = strings.some(({tensionBeforeN}) => tensionBeforeN !== undefined);
	const step = niceStep(most, 4);
	const end = Math.ceil(most / step) * step;
	const rows = rowsFor(strings.length, [0, end]);
	return rowPicture(
		rows,
		{
			title: words.pictures.tensions,
			names: strings.map(({string, note}) => `${string} ${note}`),
			values: strings.map(({tensionN}) => formatForce(tensionN, sheet.units)),
			marks: ticks(0, end, step).map(at => ({at, text: formatTrimmed(at, 2)})),
			axisWords: words.pictures[hasBefore ? 'tensionsBeforeAxis' : 'tensionsAxis'](sheet.units.force),
		},
		strings.flatMap(({tensionN, tensionBeforeN}, row) => [
			box([rows.x(0), rows.y(row) - 6], [rows.x(inUnits(tensionN)) - rows.x(0), 12], 'bar'),
			...(tensionBeforeN === undefined
				? []
				: [box([rows.x(0), rows.y(row) - 9], [rows.x(inUnits(tensionBeforeN)) - rows.x(0), 18], 'was')]),
		]),
	);
}
