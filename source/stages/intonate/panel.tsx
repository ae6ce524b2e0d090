import type {Bench} from '../../session/bench.ts';
import type {Glyphs} from '../../terminal/glyphs.ts';
import {type Line, line, type Span, span} from '../../terminal/line.ts';
import {Lines, useLook} from '../../terminal/look.tsx';
import {formatCents} from '../../units/cents.ts';
import {formatTravel} from '../../units/length.ts';
import {errorOf} from './status.ts';
import {words} from './words.ts';

/** Saddles from above: where each one came in, where it is and where it is to go. */
export function Panel({
	bench,
	width,
	height,
}: {
	readonly bench: Bench;
	readonly width: number;
	readonly height: number;
}) {
	const {glyphs} = useLook();
	const lines: readonly Line[] = [
		line(words.panel.title(glyphs.empty, glyphs.brick, glyphs.aim), 'quiet'),
		...saddleLines(bench, width, glyphs),
	];
	return <Lines lines={lines} width={width} height={height} />;
}

/** Saddle travel that the picture spans when a string says nothing of its own, mm behind the scale line. */
const usualRangeMm = [-2, 8] as const;

export function saddleLines(bench: Bench, width: number, glyphs: Glyphs): readonly Line[] {
	const {sheet, strings} = bench;
	const ranges = sheet.strings.map(({saddleRangeMm}) => saddleRangeMm ?? usualRangeMm);
	const [low, high] = [Math.min(...ranges.map(([low]) => low)), Math.max(...ranges.map(([, high]) => high))];
	const cells = Math.max(10, Math.min(44, width - 34));
	const placeOf = (mm: number) =>
		Math.max(0, Math.min(cells - 1, Math.round(((mm - low) / (high - low)) * (cells - 1))));
	return strings.map(row => {
		const {string, note, saddleMm, saddleMoveMm} = row;
		// Unknown positions are drawn from the middle, so that the way and the length of a move still show.
		const from = saddleMm ?? (low + high) / 2;
		const here = placeOf(from);
		const there = saddleMoveMm && placeOf(from + saddleMoveMm.mean);
		const {movedMm = 0} = row.saddle ?? {};
		const was = movedMm === 0 ? undefined : placeOf(from - movedMm);
		const rail: Span[] = Array.from({length: cells}, (_, cell) => {
			if (cell === here) return span(saddleMm === undefined ? glyphs.mortar : glyphs.brick, 'strong');
			if (cell === was) return span(glyphs.empty, 'quiet');
			return cell === there ? span(glyphs.aim, 'accent') : span(glyphs.rung, 'quiet');
		});
		const error = errorOf(row);
		const said = [
			...(error ? [formatCents(error.mean)] : []),
			...(saddleMoveMm ? [formatTravel(saddleMoveMm.mean, sheet.units)] : []),
		].join('  ');
		return [span(`${string} ${note}`.padEnd(7)), ...rail, span(`  ${said}`)];
	});
}
