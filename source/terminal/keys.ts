import {fitTo, wrapWords} from './fit.ts';
import {blank, type Line, line, type Span, span, widthOf} from './line.ts';
import {nameOf, type Stroke} from './strokes.ts';

/**
 * A key and what it does, once: the same table handles the key, fills the
 * hint bar and is the help.
 */
export interface Binding<Command> {
	readonly strokes: readonly [Stroke, ...Stroke[]];
	/** For the help: a phrase that goes on from the key. */
	readonly help: string;
	/** For the hint bar, a word or two; none keeps it in the help only. */
	readonly hint?: string;
	readonly command: Command;
}

/** The binding that answers a stroke, first come first served. */
export function bindingFor<Command>(
	bindings: readonly Binding<Command>[],
	stroke: Stroke,
): Binding<Command> | undefined {
	return bindings.find(({strokes}) => strokes.includes(stroke));
}

/** One row of hints, most important first; what does not fit is left to the help. */
export function hintLine(bindings: readonly Binding<unknown>[], width: number): Line {
	const row: Span[] = [];
	let room = width;
	for (const {strokes, hint} of bindings) {
		if (hint === undefined) continue;
		const pieces = [span(nameOf(strokes[0]), 'accent'), span(` ${hint}`, 'plain')];
		const gap = row.length > 0 ? 3 : 0;
		const wide = widthOf(pieces) + gap;
		if (wide > room) continue;
		if (gap > 0) row.push(span(' '.repeat(gap)));
		row.push(...pieces);
		room -= wide;
	}

	return row;
}

/** The help: every key that works here, one under the other. */
export function helpLines(bindings: readonly Binding<unknown>[], width: number): readonly Line[] {
	const rows = bindings.map(({strokes, help}) => ({names: strokes.map(nameOf).join(' '), help}));
	const left = Math.min(18, Math.max(0, ...rows.map(({names}) => names.length))) + 2;
	return rows.flatMap(({names, help}) =>
		wrapWords(help, Math.max(10, width - left)).map((text, index) => [
			span(fitTo(index === 0 ? names : '', left), 'accent'),
			span(text),
		]),
	);
}

/** A titled block of lines, for help and panels. */
export function block(title: string, lines: readonly Line[]): readonly Line[] {
	return [line(title, 'strong'), ...lines, blank];
}
