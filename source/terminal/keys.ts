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
	/** Shown in the hint bar even when others must give way. */
	readonly isPinned?: boolean;
}

/** The binding that answers a stroke, first come first served. */
export function bindingFor<Command>(
	bindings: readonly Binding<Command>[],
	stroke: Stroke,
): Binding<Command> | undefined {
	return bindings.find(({strokes}) => strokes.includes(stroke));
}

/** One row of hints in the order of the table; when room is short, pinned ones stay, then the first ones. */
export function hintLine(bindings: readonly Binding<unknown>[], width: number): Line {
	const hints = bindings.flatMap(({strokes, hint, isPinned = false}, order) =>
		hint === undefined ? [] : [{order, isPinned, pieces: [span(nameOf(strokes[0]), 'accent'), span(` ${hint}`)]}],
	);
	let room = width + gap;
	const kept = hints
		.toSorted((a, b) => Number(b.isPinned) - Number(a.isPinned) || a.order - b.order)
		.filter(({pieces}) => {
			const wide = widthOf(pieces) + gap;
			if (wide > room) return false;
			room -= wide;
			return true;
		})
		.toSorted((a, b) => a.order - b.order);
	return kept.flatMap(({pieces}, index): readonly Span[] =>
		index === 0 ? pieces : [span(' '.repeat(gap)), ...pieces],
	);
}

const gap = 3;

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
