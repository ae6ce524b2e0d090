import type {Bench, Outlook} from '../session/bench.ts';
import {fitTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {blank, type Line, line, span} from '../terminal/line.ts';
import {formatCents, formatCentsSpread} from '../units/cents.ts';
import {formatNumber} from '../units/number.ts';

/** The plan ahead, what moves what, and how the worst error came down. */
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
		...worstLines(outlook, width, glyphs),
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

function moveLines({movesPerTenCents}: Outlook, {strings}: Bench): readonly Line[] {
	const cell = 7;
	return [
		line('What moves what: string turned up by 10 cents (row) moves the others by, cents', 'strong'),
		[span(fitTo('', 4)), ...strings.map(({string}) => span(fitTo(String(string), cell, 'right'), 'quiet'))],
		...movesPerTenCents.map((row, turned) => [
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

export function worstLines({worstAfterStep}: Outlook, width: number, glyphs: Glyphs): readonly Line[] {
	const title = line('Worst string after each turn (cents)', 'strong');
	if (worstAfterStep.length === 0) return [title, line('Nothing turned yet.', 'quiet')];
	const room = Math.max(5, Math.min(40, width - 14));
	const first = Math.max(0, worstAfterStep.length - 12);
	// From a thousand cents to one in a few turns: bars grow with the logarithm, or the last ones would all be alike.
	const size = (cents: number): number => Math.log1p(cents);
	const most = Math.max(1, ...worstAfterStep.slice(first).map(size));
	return [
		title,
		...worstAfterStep
			.slice(first)
			.map((cents, index) => [
				span(fitTo(String(first + index + 1), 3, 'right'), 'quiet'),
				span(fitTo(formatNumber(cents, 1), 8, 'right')),
				span(` ${glyphs.brick.repeat(Math.max(cents > 0 ? 1 : 0, Math.round((size(cents) / most) * room)))}`, 'accent'),
			]),
	];
}
