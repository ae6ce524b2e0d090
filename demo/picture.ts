import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {realPorts} from '../source/shell/real-ports.ts';
import {regionsFor} from '../source/shell/regions.ts';
import {seenBy} from '../source/shell/seen.ts';
import {sittingFrame} from '../source/shell/sitting-frame.ts';
import type {Sitting} from '../source/shell/state.ts';
import {press, startSetup} from '../source/shell/wizard.ts';
import {openStore} from '../source/storage/store.ts';
import {unicodeGlyphs} from '../source/terminal/glyphs.ts';
import {cutLine, type Line, widthOf} from '../source/terminal/line.ts';
import type {Meaning} from '../source/terminal/theme.ts';

/** The practice guitar on the picture, how wide the terminal is, and how many strings are turned by then. */
const guitar = 7;
const size = {columns: 118, rows: 29} as const;
const turned = 1;

/** The screen that README shows, as SVG: the wizard on a simulated guitar, a turn about to be made that moves the others. */
export function pictureSvg(): string {
	const folder = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-picture-'));
	try {
		return svgOf(framed(folder));
	} finally {
		rmSync(folder, {recursive: true, force: true});
	}
}

/** What stands on the screen, row by row, and from which column. */
interface Placed {
	readonly row: number;
	readonly column: number;
	readonly line: Line;
}

function framed(folder: string): readonly Placed[] {
	const opened = openStore({folder, now: () => 0});
	if (!opened.ok) throw new Error(opened.said);
	const ports = realPorts(opened.store, () => 0);
	let sitting = startSetup(ports, guitar);
	for (let count = 0; !isWorthShowing(sitting); count++) {
		const next = press(sitting, seenBy(sitting, ports).stage?.id === 'intake' ? 'enter' : ' ', ports);
		if (next.screen !== 'sitting' || count > 200) throw new Error('pictureSvg: found no moment to show');
		sitting = next;
	}

	const regions = regionsFor(size, 6)!;
	const {above, below, side} = sittingFrame(sitting, ports, regions, unicodeGlyphs);
	const main = [...above, ...below].map((line, row) => ({row, column: 1, line: cutLine(line, regions.width, '…')}));
	const right = side.map((line, row) => ({
		row: row + regions.heights.header + regions.heights.trail + 1,
		column: regions.width + 3,
		line,
	}));
	return [...main, ...right];

	function isWorthShowing(now: Sitting): boolean {
		const {bench, stage, task} = seenBy(now, ports);
		const isTurn = task.act?.kind === 'turn' && bench.forecast(task.act).matters;
		return stage !== undefined && isTurn && bench.adjustments >= turned;
	}
}

const cell = {width: 8, height: 18} as const;
const margin = 12;
const background = '#16181d';

/** As the 256-colour palette has them; see `terminal/theme.ts`. */
const looks: Readonly<Record<Meaning, string>> = {
	plain: 'fill="#d0d3d8"',
	strong: 'fill="#ffffff" font-weight="700"',
	good: 'fill="#00875f"',
	attention: 'fill="#af5f00" font-weight="700"',
	danger: 'fill="#d7005f" font-weight="700"',
	quiet: 'fill="#8a8d93"',
	accent: 'fill="#7f87ff" font-weight="700"',
	marked: `fill="${background}" font-weight="700"`,
};

function svgOf(placed: readonly Placed[]): string {
	const width = size.columns * cell.width + 2 * margin;
	const height = size.rows * cell.height + 2 * margin;
	return [
		`<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" font-family="ui-monospace, Menlo, Consolas, 'DejaVu Sans Mono', monospace" font-size="13.3">`,
		'<title>evenfloat on a practice guitar: one instruction, the table of strings, what the next turn moves</title>',
		`<rect width="${width}" height="${height}" rx="8" fill="${background}"/>`,
		...placed.flatMap(texts),
		'</svg>',
		'',
	].join('\n');
}

/** One element for each piece of a line, stretched to its cells whatever the font. */
function texts({row, column, line}: Placed): readonly string[] {
	let at = column;
	return line.flatMap(({text, as}) => {
		const cells = widthOf([{text, as}]);
		const lead = text.length - text.trimStart().length;
		const body = text.trim();
		const x = margin + (at + lead) * cell.width;
		at += cells;
		if (body === '') return [];
		const length = widthOf([{text: body, as}]) * cell.width;
		const y = margin + (row + 1) * cell.height - 5;
		const box =
			as === 'marked'
				? [`<rect x="${x}" y="${y - 13}" width="${length}" height="${cell.height}" fill="#d0d3d8"/>`]
				: [];
		return [
			...box,
			`<text x="${x}" y="${y}" textLength="${length}" lengthAdjust="spacingAndGlyphs" xml:space="preserve" ${looks[as]}>${escaped(body)}</text>`,
		];
	});
}

function escaped(text: string): string {
	return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
