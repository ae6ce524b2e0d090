import type {StringNumber} from '../music/string-number.ts';
import type {Bench, StringRow} from '../session/bench.ts';
import {safeShare} from '../planning/strength.ts';
import {centsBar} from '../terminal/cents-bar.ts';
import {type Column, placeColumns, rowLine, titleLine} from '../terminal/columns.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, line, span} from '../terminal/line.ts';
import type {Meaning} from '../terminal/theme.ts';
import {formatCents, formatCentsSpread} from '../units/cents.ts';
import {formatLength} from '../units/length.ts';
import {formatForce, formatHertz, formatPercent} from '../units/quantities.ts';
import {aimOf} from './seen.ts';

/** What the person is about: decides which columns stay where there is little room. */
export type Subject = 'pitch' | 'saddles';

export interface TableRow {
	readonly row: StringRow;
	readonly isAsked: boolean;
}

/** The live table: one row for every string, thinnest first, titles above. */
export function tableLines(
	bench: Bench,
	options: {
		readonly asked?: StringNumber | undefined;
		readonly subject: Subject;
		readonly width: number;
		readonly glyphs: Glyphs;
	},
): {readonly titles: Line; readonly rows: readonly Line[]} {
	const placed = placeColumns(columnsFor(bench, options.subject, options.glyphs), options.width);
	const rows = bench.strings.map(row => rowLine(placed, {row, isAsked: row.string === options.asked}));
	return {titles: titleLine(placed), rows};
}

/** What the columns mean, for the help. */
export const columnWords = [
	['note, Hz', 'what the string is to sound'],
	['read', 'last reading, cents against the target: + sharp, − flat'],
	['old', 'things turned or moved anywhere since that reading'],
	['now', 'where the string is believed to stand now; ± holds nine times out of ten'],
	[
		'− | +',
		'the same as bricks, flat to the left, sharp to the right: full ones are sure, loose ones possible, none is within tolerance; the open mark is the aim',
	],
	['aim', 'where to leave it if it is turned next, so that it lands when all are done'],
	['N, lbf, kgf', 'tension now'],
	['sadl', 'saddle, behind the scale line'],
	['12th', 'fretted 12th against the harmonic, cents'],
	['state', 'unread, off, slack, free, blocked, locked, settled, or what needs a look'],
] as const;

function columnsFor({sheet, toleranceCents}: Bench, subject: Subject, glyphs: Glyphs): readonly Column<TableRow>[] {
	const {units} = sheet;
	const figure = (text: string) => text.replace(/ [A-Za-z]+$/, '');
	const forSaddles = subject === 'saddles';
	return [
		{
			id: 'string',
			title: ' #',
			width: 2,
			rank: 0,
			cell: ({row, isAsked}) => [
				span(isAsked ? glyphs.current : ' ', 'accent'),
				span(String(row.string), isAsked ? 'accent' : 'strong'),
			],
		},
		{
			id: 'note',
			title: 'note',
			width: 4,
			rank: 0,
			cell: ({row, isAsked}) => line(row.note, isAsked ? 'strong' : 'plain'),
		},
		{
			id: 'hertz',
			title: 'Hz',
			width: 6,
			side: 'right',
			rank: 9,
			cell: ({row}) => line(figure(formatHertz(row.targetHz)), 'quiet'),
		},
		{
			id: 'read',
			title: 'read',
			width: 5,
			side: 'right',
			rank: 3,
			cell: ({row: {lastReading}}) => line(lastReading ? shortCents(lastReading.cents) : '', 'quiet'),
		},
		{
			id: 'old',
			title: 'old',
			width: 3,
			side: 'right',
			rank: forSaddles ? 7 : 4,
			cell: ({row}) => line(row.lastReading ? age(row.touchedSince) : '', 'quiet'),
		},
		{
			id: 'now',
			title: 'now',
			width: 10,
			widest: 12,
			side: 'right',
			rank: 1,
			cell: ({row: {now, lastReading}, isAsked}) =>
				line(now ? formatCentsSpread(now) : lastReading ? '?' : '', isAsked ? 'strong' : 'plain'),
		},
		{
			id: 'bar',
			title: `− ${glyphs.post} +`,
			width: 9,
			widest: 25,
			side: 'centre',
			rank: 2,
			cell: ({row}, width) =>
				centsBar({
					now: row.now,
					aimCents: aimOf(row)?.mean,
					toleranceCents,
					width: width % 2 === 1 ? width : width - 1,
					glyphs,
				}),
		},
		{
			id: 'aim',
			title: 'aim',
			width: 5,
			side: 'right',
			rank: forSaddles ? 6 : 2,
			cell: ({row, isAsked}) => {
				const aim = aimOf(row);
				return line(aim ? shortCents(aim.mean) : '', isAsked ? 'strong' : 'plain');
			},
		},
		{
			id: 'force',
			title: units.force,
			width: 5,
			side: 'right',
			rank: forSaddles ? 8 : 6,
			cell: ({row}) => line(figure(formatForce(row.tensionN, units)), isStrained(row) ? 'attention' : 'quiet'),
		},
		{
			id: 'saddle',
			title: 'sadl',
			width: 5,
			side: 'right',
			rank: forSaddles ? 4 : 8,
			cell: ({row: {saddleMm}}) => line(saddleMm === undefined ? '' : figure(formatLength(saddleMm, units)), 'quiet'),
		},
		{
			id: 'twelfth',
			title: '12th',
			width: 5,
			side: 'right',
			rank: forSaddles ? 2 : 5,
			cell: ({row: {intonationCents}}) =>
				line(
					intonationCents ? shortCents(intonationCents.mean) : '',
					intonationCents && Math.abs(intonationCents.mean) > sheet.frettedToleranceCents ? 'attention' : 'plain',
				),
		},
		{id: 'state', title: 'state', width: 7, widest: 12, rank: 1, cell: ({row}) => stateCell(row, glyphs)},
	];
}

function isStrained({strengthShare, wound}: StringRow): boolean {
	return strengthShare > safeShare[wound ? 'wound' : 'plain'];
}

function stateCell(row: StringRow, glyphs: Glyphs): Line {
	if (isStrained(row)) return line(`${glyphs.attention} ${formatPercent(row.strengthShare)}`, 'attention');
	if (row.state === 'needs a look' && !row.lastReading) return line('unread', 'quiet');
	if (row.state === 'needs a look') return line(`${glyphs.attention} look`, 'attention');
	const looks: {readonly [S in StringRow['state']]?: Meaning} = {settled: 'good', off: 'quiet', slack: 'quiet'};
	return line(row.state, looks[row.state] ?? 'plain');
}

/** Five cells: a decimal while it says anything. */
function shortCents(cents: number): string {
	return formatCents(cents, Math.abs(cents) < 99.95 ? 1 : 0);
}

function age(touchedSince: number): string {
	if (touchedSince === 0) return 'new';
	return touchedSince > 99 ? '99+' : String(touchedSince);
}
