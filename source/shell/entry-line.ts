import stringWidth from 'string-width';
import type {Entry} from '../terminal/entry.ts';
import {cutTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {type Line, span} from '../terminal/line.ts';

/** Cells that the longest prompt leaves for what is typed. */
const leastRoom = 16;

/**
 * Prompt, what is typed, and where the cursor stands. A long entry slides so
 * that the cursor stays in sight; an empty one shows an example behind it.
 *
 * @returns `cursor` in cells from the left edge of the line.
 */
export function entryLine(
	{prompt, entry, example}: {readonly prompt: string; readonly entry: Entry; readonly example?: string | undefined},
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): {readonly line: Line; readonly cursor: number} {
	const label = `${cutTo(prompt, Math.max(10, width - leastRoom), glyphs.cut)} ${glyphs.prompt} `;
	const start = stringWidth(label);
	const room = Math.max(1, width - start - 1);
	const before = slide(entry.text.slice(0, entry.cursor), room);
	const after = cutTo(entry.text.slice(entry.cursor), room - stringWidth(before), '');
	const hint = entry.text === '' && example ? span(cutTo(`  such as ${example}`, room, glyphs.cut), 'quiet') : span('');
	return {
		line: [span(label, 'accent'), span(before + after, 'strong'), hint],
		cursor: start + stringWidth(before),
	};
}

/** The end of the text that fits. */
function slide(text: string, room: number): string {
	let kept = text;
	while (stringWidth(kept) > room) kept = kept.slice(String.fromCodePoint(kept.codePointAt(0)!).length);
	return kept;
}
