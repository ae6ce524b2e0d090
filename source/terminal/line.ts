import stringWidth from 'string-width';
import {endIn} from './fit.ts';
import type {Meaning} from './theme.ts';

/** A run of text that means one thing. */
export interface Span {
	readonly text: string;
	readonly as: Meaning;
}

/** One row of the screen. Screens are lists of lines: what does not fit is cut by intent, never by the terminal. */
export type Line = readonly Span[];

export function span(text: string, as: Meaning = 'plain'): Span {
	return {text, as};
}

export function line(text: string, as: Meaning = 'plain'): Line {
	return [span(text, as)];
}

export const blank: Line = [];

export function widthOf(content: Line): number {
	return content.reduce((sum, {text}) => sum + stringWidth(text), 0);
}

export function textOf(content: Line): string {
	return content.map(({text}) => text).join('');
}

/** Neighbours of one meaning become one span: fewer colour codes on the wire. */
export function merged(pieces: readonly Span[]): Line {
	const spans: Span[] = [];
	for (const piece of pieces) {
		const last = spans.at(-1);
		if (last?.as === piece.as) spans[spans.length - 1] = span(last.text + piece.text, piece.as);
		else spans.push(piece);
	}

	return spans;
}

/** True when both would be drawn alike. */
export function isSameLine(one: Line, other: Line): boolean {
	return (
		one === other ||
		(one.length === other.length && one.every(({text, as}, at) => text === other[at]!.text && as === other[at]!.as))
	);
}

/** Cuts a line to `width` cells; the last span that does not fit ends in `mark`. */
export function cutLine(content: Line, width: number, mark = '…'): Line {
	if (widthOf(content) <= width) return content;
	const kept: Span[] = [];
	let room = width;
	for (const piece of content) {
		const wide = stringWidth(piece.text);
		if (wide > room - stringWidth(mark)) {
			kept.push({...piece, text: endIn(mark, piece.text, room)});
			return kept;
		}

		kept.push(piece);
		room -= wide;
	}

	return kept;
}

/** Left part, then right part set against the right edge; the left part gives way. */
export function spread(left: Line, right: Line, width: number, mark = '…'): Line {
	const rightKept = cutLine(right, width, mark);
	const room = Math.max(0, width - widthOf(rightKept) - 1);
	const leftKept = cutLine(left, room, mark);
	return [...leftKept, span(' '.repeat(Math.max(0, width - widthOf(leftKept) - widthOf(rightKept)))), ...rightKept];
}

/** Exactly `height` lines: blank ones added below, or the end cut off. */
export function toHeight(lines: readonly Line[], height: number): readonly Line[] {
	return Array.from({length: Math.max(0, height)}, (_, index) => lines[index] ?? blank);
}
