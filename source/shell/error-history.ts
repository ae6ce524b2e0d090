import type {Bench, Outlook} from '../session/bench.ts';
import {fitTo, wrapWords} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, line, merged, type Span, span} from '../terminal/line.ts';
import {formatCents} from '../units/cents.ts';

/** Errors from here on draw alike, cents. */
const tallestCents = 200;

/** One row a string, one cell a turn: how far it stood from its target, sharp or flat, as the set-up went on. */
export function errorHistoryLines(
	{errorsAfterStep}: Outlook,
	{strings, toleranceCents}: Bench,
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): readonly Line[] {
	const title = line('How every string came home', 'strong');
	if (errorsAfterStep.length === 0) return [title, line('Nothing turned yet.', 'quiet')];
	const shown = errorsAfterStep.slice(-Math.max(1, width - left - right));
	const first = errorsAfterStep.length - shown.length + 1;
	return [
		title,
		...strings.map(({string, note}, index): Line => {
			const cells = shown.map(errors => cell(errors[index], toleranceCents, glyphs));
			const last = shown.at(-1)![index];
			return [
				span(` ${string} ${fitTo(note, left - 3)}`, 'strong'),
				...merged(cells),
				span(fitTo(last === undefined ? '' : formatCents(last), right, 'right')),
			];
		}),
		...wrapWords(
			`turns ${first} to ${errorsAfterStep.length}; tall is far, ${glyphs.atHome} within tolerance; last: cents`,
			Math.max(20, width - left),
		).map(row => line(`${fitTo('', left)}${row}`, 'quiet')),
	];
}

const left = 8;
const right = 9;

/** The nearer the shorter, in equal ratios: from a tone to a cent in a few turns, all of it is seen. */
function cell(cents: number | undefined, toleranceCents: number, {levels, atHome}: Glyphs): Span {
	if (cents === undefined) return span(' ');
	const out = Math.abs(cents) / toleranceCents;
	if (out <= 1) return span(atHome, 'good');
	const share = Math.log(out) / Math.log(tallestCents / toleranceCents);
	const level = Math.min(levels.length - 1, Math.floor(share * levels.length));
	return span([...levels][level]!, 'accent');
}
