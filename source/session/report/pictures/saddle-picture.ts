import {mmTo} from '../../../units/convert.ts';
import {formatTrimmed} from '../../../units/number.ts';
import {formatLength} from '../../../units/length.ts';
import type {SetUpSheet} from '../set-up-sheet.ts';
import {words} from '../words.ts';
import {rowPicture, rowsFor} from './rows.ts';
import {dot, line, niceStep, ticks} from './svg.ts';

/**
 * Where every saddle stands, and stood, behind the scale line. Saddles whose
 * place nobody measured are shown by their moves alone when all are like that.
 * Undefined when there is nothing to show.
 */
export function saddlePicture({strings, sheet}: SetUpSheet): string | undefined {
	const isMeasured = strings.some(({saddleMm}) => saddleMm !== undefined);
	if (!isMeasured && strings.every(({saddleMovedMm}) => saddleMovedMm === 0)) return undefined;
	const places = strings.map(({saddleMm, saddleMovedMm}) => {
		const now = isMeasured ? saddleMm : saddleMovedMm;
		return now === undefined ? undefined : {now, before: now - saddleMovedMm};
	});
	const all = places.flatMap(place => (place ? [place.now, place.before] : []));
	const inUnits = (mm: number) => mmTo(mm, sheet.units.length);
	const span = Math.max(2, Math.max(0, ...all) - Math.min(0, ...all));
	const low = Math.min(0, ...all) - 0.12 * span;
	const high = low + 1.24 * span;
	const rows = rowsFor(strings.length, [inUnits(low), inUnits(high)]);
	const step = niceStep(inUnits(high) - inUnits(low), 5);
	const x = (mm: number) => rows.x(inUnits(mm));
	return rowPicture(
		rows,
		{
			title: words.pictures.saddles,
			names: strings.map(({string, note}) => `${string} ${note}`),
			values: places.map(place => (place ? formatLength(place.now, sheet.units) : words.none)),
			marks: ticks(inUnits(low), inUnits(high), step).map(at => ({at, text: formatTrimmed(at, 2)})),
			axisWords: words.pictures[isMeasured ? 'saddlesAxis' : 'saddleMovesAxis'](sheet.units.length),
		},
		[
			line([x(0), rows.top], [x(0), rows.bottom], 'zero'),
			...places.flatMap((place, row) =>
				place
					? [
							line([x(place.before), rows.y(row)], [x(place.now), rows.y(row)], 'way'),
							...(place.before === place.now ? [] : [dot([x(place.before), rows.y(row)], 5, 'before')]),
							dot([x(place.now), rows.y(row)], 5, 'now'),
						]
					: [],
			),
		],
	);
}
