import type {Bench, Outlook} from '../session/bench.ts';
import {fitTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {blank, type Line, line, span} from '../terminal/line.ts';
import {formatCents, formatCentsSpread} from '../units/cents.ts';
import {errorHistoryLines} from './error-history.ts';

/** The plan ahead, what moves what, and how every string came home. */
export function outlookLines(
	outlook: Outlook,
	bench: Bench,
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): readonly Line[] {
	return [
		...orderLines(outlook, bench),
		blank,
		...moveLines(outlook, bench),
		blank,
		...errorHistoryLines(outlook, bench, {width, glyphs}),
	];
}

export function orderLines({order}: Outlook, bench: Bench): readonly Line[] {
	if (order.length === 0) return [line('The plan ahead', 'strong'), line('Nothing left to turn.', 'quiet')];
	const note = (string: number) => bench.strings.find(row => row.string === string)?.note ?? '';
	return [
		line('The plan ahead (cents)', 'strong'),
		...order.map(({string, aimCents}, index) => [
			span(fitTo(String(index + 1), 3, 'right'), 'quiet'),
			span(`  ${string} ${fitTo(note(string), 4)}`, 'strong'),
			span(formatCentsSpread(aimCents)),
		]),
	];
}

function moveLines(outlook: Outlook, {strings}: Bench): readonly Line[] {
	const cell = 7;
	return [
		line('What moves what: string turned up by 10 cents (row) moves the others by, cents', 'strong'),
		[span(fitTo('', 4)), ...strings.map(({string}) => span(fitTo(String(string), cell, 'right'), 'quiet'))],
		...outlook
			.movesPerTenCents()
			.map((row, turned) => [
				span(fitTo(` ${turned + 1}`, 4), 'strong'),
				...row.map((cents, moved) =>
					span(
						fitTo(moved === turned ? '+10' : formatCents(cents.mean), cell, 'right'),
						moved === turned ? 'quiet' : 'plain',
					),
				),
			]),
	];
}
