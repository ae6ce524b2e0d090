import {sheetText} from '../session/report/as-text.ts';
import {setUpSheet} from '../session/report/set-up-sheet.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {fitTo, wrapWords} from '../terminal/fit.ts';
import {block, helpLines} from '../terminal/keys.ts';
import {blank, type Line, line, span} from '../terminal/line.ts';
import {outlookLines} from './outlook-lines.ts';
import type {Ports} from './ports.ts';
import type {Seen} from './seen.ts';
import {helpKeys} from './sitting-keys.ts';
import type {Overlay, Sitting} from './state.ts';
import {entriesOf, entryWords} from './story-words.ts';
import {columnWords} from './string-table.ts';

/** What stands in place of the table while an overlay is open. Any length; the screen scrolls it. */
export function overlayLines(
	overlay: Overlay,
	{sitting, seen, ports}: {readonly sitting: Sitting; readonly seen: Seen; readonly ports: Ports},
	{width, glyphs}: {readonly width: number; readonly glyphs: Glyphs},
): readonly Line[] {
	switch (overlay) {
		case 'help':
			return [
				...messageBlock(sitting, width),
				...cautionBlock(seen, width),
				...block('Keys', helpLines(helpKeys(sitting, seen), width)),
				...block('What can be typed', [...wrapped(entryHelp, width)]),
				...block(
					'The table',
					columnWords.flatMap(([title, words]) => titled(title, words, width)),
				),
			];
		case 'outlook':
			return outlookLines(ports.outlookOf(sitting.journal.story, sitting.learned), seen.bench, {width, glyphs});
		case 'sheet':
			return sheetText(setUpSheet(seen.bench)).flatMap(text => wrapped([text], width));
		case 'story':
			return storyLines(sitting, seen, width);
	}
}

/** How readings are typed. */
export const entryHelp = [
	'A reading as the tuner shows it: cents (-12, +3.5), a frequency (82.1 Hz), a note with cents (E2 -12).',
	'Another string than the one asked for: its number first (5: -12). A comma may stand for the decimal point.',
	'Signs: + is sharp, turns + are tighter, a saddle + goes back, a tail + stands high.',
];

function messageBlock({message}: Sitting, width: number): readonly Line[] {
	return message && ['attention', 'danger'].includes(message.as)
		? block('Said last', wrapped([message.text], width))
		: [];
}

function cautionBlock({task}: Seen, width: number): readonly Line[] {
	const cautions = task.cautions ?? [];
	return cautions.length === 0 ? [] : block('Cautions', wrapped(cautions, width));
}

function wrapped(texts: readonly string[], width: number): readonly Line[] {
	return texts.flatMap(text => wrapWords(text, width).map(row => line(row)));
}

function titled(title: string, words: string, width: number): readonly Line[] {
	const left = 12;
	return wrapWords(words, Math.max(10, width - left)).map((row, index) => [
		span(fitTo(index === 0 ? title : '', left), 'accent'),
		span(row),
	]);
}

/** Newest first: what was done last is what one looks for. */
function storyLines({journal: {story, undone}}: Sitting, {bench}: Seen, width: number): readonly Line[] {
	const entries = entriesOf(story).toReversed();
	return [
		line(
			`Entered so far, newest first${undone.length > 0 ? ` (${undone.length} taken back; r puts back)` : ''}`,
			'strong',
		),
		...entries.flatMap((facts, index) => entryRow(entries.length - index, entryWords(facts, bench.sheet), width)),
		blank,
	];
}

function entryRow(number: number, words: string, width: number): readonly Line[] {
	return wrapWords(words, Math.max(10, width - 5)).map((row, index) => [
		span(fitTo(index === 0 ? String(number) : '', 4, 'right'), 'quiet'),
		span(` ${row}`),
	]);
}

/** The same for a narrow column: the newest entries, one row each. */
export function recentLines({journal: {story}}: Sitting, {bench}: Seen, width: number, rows: number): readonly Line[] {
	const entries = entriesOf(story);
	return entries
		.toReversed()
		.slice(0, Math.max(0, rows))
		.map((facts, index) => [
			span(fitTo(String(entries.length - index), 3, 'right'), 'quiet'),
			span(fitTo(` ${entryWords(facts, bench.sheet)}`, Math.max(0, width - 3)), index === 0 ? 'plain' : 'quiet'),
		]);
}
