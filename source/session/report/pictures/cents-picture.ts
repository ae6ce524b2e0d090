import {formatCents} from '../../../units/cents.ts';
import {formatNumber} from '../../../units/number.ts';
import type {SetUpSheet} from '../set-up-sheet.ts';
import {words} from '../words.ts';
import {rowPicture, rowsFor} from './rows.ts';
import {box, dot, label, line, niceStep, ticks} from './svg.ts';

/** Narrowest and widest scale, cents to either side; what lies beyond is drawn at the edge. */
const leastReach = 10;
const mostReach = 120;

interface CentsRow {
	readonly name: string;
	readonly before: number | undefined;
	readonly now: number | undefined;
}

/** Every open string's cents as it came in (ring) and now (dot). Undefined when no string was ever read. */
export function openPicture({strings, sheet}: SetUpSheet): string | undefined {
	const rows = strings.map(({string, note, firstCents, nowCents}) => ({
		name: `${string} ${note}`,
		before: firstCents,
		now: nowCents,
	}));
	return centsPicture(rows, sheet.openToleranceCents, words.pictures.open);
}

/** The same for the fretted 12th less the harmonic. */
export function intonationPicture({strings, sheet}: SetUpSheet): string | undefined {
	const rows = strings.map(({string, note, firstIntonationCents, nowIntonationCents}) => ({
		name: `${string} ${note}`,
		before: firstIntonationCents,
		now: nowIntonationCents,
	}));
	return centsPicture(rows, sheet.frettedToleranceCents, words.pictures.intonation);
}

function centsPicture(all: readonly CentsRow[], toleranceCents: number, title: string): string | undefined {
	const read = all.flatMap(({before, now}) => [before ?? [], now ?? []].flat());
	if (read.length === 0) return undefined;
	const furthest = Math.min(mostReach, Math.max(leastReach, ...read.map(Math.abs)));
	const step = niceStep(furthest, 3);
	const reach = Math.ceil(furthest / step) * step;
	const rows = rowsFor(all.length, [-reach, reach]);
	const held = (cents: number) => rows.x(Math.max(-reach, Math.min(reach, cents)));
	const beyond = (cents: number, row: number) =>
		Math.abs(cents) <= reach
			? []
			: [
					label([held(cents) + (cents < 0 ? 9 : -9), rows.y(row) - 4], formatCents(cents, 0), {
						as: 'mark',
						anchor: cents < 0 ? 'start' : 'end',
					}),
				];
	return rowPicture(
		rows,
		{
			title,
			names: all.map(({name}) => name),
			values: all.map(({now}) => (now === undefined ? words.none : formatCents(now))),
			marks: ticks(-reach, reach, step).map(at => ({at, text: formatNumber(at, 0, {signed: true})})),
			axisWords: words.pictures.centsAxis,
		},
		[
			box(
				[rows.x(-toleranceCents), rows.top],
				[rows.x(toleranceCents) - rows.x(-toleranceCents), rows.bottom - rows.top],
				'band',
			),
			line([rows.x(0), rows.top], [rows.x(0), rows.bottom], 'zero'),
			...all.flatMap(({before, now}, row) => [
				...(before !== undefined && now !== undefined
					? [line([held(before), rows.y(row)], [held(now), rows.y(row)], 'way')]
					: []),
				...(before === undefined ? [] : [dot([held(before), rows.y(row)], 5, 'before'), ...beyond(before, row)]),
				...(now === undefined ? [] : [dot([held(now), rows.y(row)], 5, 'now')]),
			]),
		],
	);
}
