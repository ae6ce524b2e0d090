import {Text} from 'ink';
import {asciiGlyphs} from '../terminal/glyphs.ts';
import {wrapWords} from '../terminal/fit.ts';
import {textOf} from '../terminal/line.ts';
import {overlayLines} from './overlay-lines.ts';
import {saySitting, sayOpening, sayHelp, sayTable} from './plain-words.ts';
import type {Ports} from './ports.ts';
import {seenBy} from './seen.ts';
import type {Opening, Sitting} from './state.ts';

/** Said on the first screen: what a screen reader is better served by. */
export const plainIsBetter =
	'A screen reader is on. evenfloat --plain asks the same line by line, which reads better; here the arrow keys and Enter choose.';

/**
 * The same for a screen reader: no columns and no pictures, whole sentences
 * from the one most needed to the table, what is typed where it belongs.
 */
export function SpokenScreen({
	wizard,
	ports,
	columns,
	rows,
}: {
	readonly wizard: Opening | Sitting;
	readonly ports: Ports;
	readonly columns: number;
	readonly rows: number;
}) {
	const said = wizard.screen === 'opening' ? spokenOpening(wizard, ports) : spokenSitting(wizard, ports);
	const lines = said.flatMap(text => wrapWords(text, columns)).filter(text => text.trim() !== '');
	// What goes over the edge would push the instruction out of sight; the table is last and gives way.
	return (
		lines
			.slice(0, Math.max(1, rows - 1))
			// biome-ignore lint/suspicious/noArrayIndexKey: a line has no identity but its place
			.map((text, at) => <Text key={at}>{text}</Text>)
	);
}

function spokenOpening(opening: Opening, ports: Ports): readonly string[] {
	const {body} = sayOpening(opening, ports);
	const marked = `Marked: line ${opening.at + 1}.`;
	return [
		opening.message?.text ?? '',
		...(opening.naming ? [`New name: ${opening.naming.entry.text}`] : [marked]),
		body,
		plainIsBetter,
	];
}

function spokenSitting(sitting: Sitting, ports: Ports): readonly string[] {
	const seen = seenBy(sitting, ports);
	const {body, prompt} = saySitting(sitting, ports);
	const asked = `${prompt} ${sitting.entry.text}`;
	const message = sitting.message?.text ?? '';
	if (sitting.overlay === undefined) return [message, body, asked, sayTable(seen.bench)];
	const shown =
		sitting.overlay === 'help'
			? sayHelp(sitting, ports).split('\n')
			: overlayLines(sitting.overlay, {sitting, seen, ports}, {width: 76, glyphs: asciiGlyphs}).map(textOf);
	return [message, asked, ...shown.slice(sitting.scroll)];
}
