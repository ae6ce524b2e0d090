import {hintLine} from '../terminal/keys.ts';
import {wrapTo} from '../terminal/fit.ts';
import type {Glyphs} from '../terminal/glyphs.ts';
import {blank, cutLine, type Line, line, span, toHeight} from '../terminal/line.ts';
import {earLine} from './ears/ear-line.ts';
import {entryLine} from './entry-line.ts';
import {forecastLines} from './forecast-lines.ts';
import {headerLine, taskLines, trailLine} from './head-lines.ts';
import {cautionRows, howLines} from './how-lines.ts';
import {errorHistoryLines} from './error-history.ts';
import {orderLines} from './outlook-lines.ts';
import {overlayLines, recentLines} from './overlay-lines.ts';
import {wayOf} from './place.ts';
import {plateLine} from './plate-line.ts';
import type {Ports} from './ports.ts';
import {type Region, type Regions, regionNames} from './regions.ts';
import {actAhead, type Seen, seenBy, stringNamed} from './seen.ts';
import {sittingKeys} from './sitting-keys.ts';
import type {Message, Sitting} from './state.ts';
import {tableLines} from './string-table.ts';

/** A whole screen of a sitting as lines: what is above the stage's picture, the picture's room, what is below. */
export interface SittingFrame {
	readonly above: readonly Line[];
	/** Rows for the stage's own picture; 0 while something else needs them. */
	readonly panelHeight: number;
	readonly below: readonly Line[];
	readonly side: readonly Line[];
	/** In cells from the top left corner of the frame. */
	readonly cursor: {readonly x: number; readonly y: number};
}

export function sittingFrame(sitting: Sitting, ports: Ports, regions: Regions, glyphs: Glyphs): SittingFrame {
	const seen = seenBy(sitting, ports);
	const keys = sittingKeys(sitting, seen);
	const {heights, width} = regions;
	const sized = {width, glyphs};
	const {bench, task} = seen;
	const isNote = sitting.writing === 'note';
	const entry = entryLine(
		isNote
			? {prompt: 'note', entry: sitting.entry, example: 'nut slot of string 3 is tight'}
			: {prompt: task.prompt, entry: sitting.entry, example: task.example},
		sized,
	);
	const remark = sitting.isLookOnly ? 'look only' : undefined;
	const head: {readonly [R in Region]?: readonly Line[]} = {
		header: [headerLine({bench, stages: ports.stages, progress: task.progress, remark}, sized)],
		trail: [trailLine(wayOf(bench, ports.stages), sized)],
		task: taskLines(task, {...sized, rows: heights.task}),
	};
	const below = [
		...toHeight(heights.ear > 0 ? [earLine(sitting, seen, sized)] : [], heights.ear),
		...toHeight([], heights.gapAboveEntry),
		...toHeight([entry.line], heights.entry),
		...toHeight([hintLine(keys, width)], heights.keys),
	];
	const {message, borrowed} = messageRows(sitting.message, regions, glyphs);
	const center = shortened(middle(sitting, seen, ports, regions, glyphs), borrowed);
	const {panelHeight} = center;
	const above = [...place(['header', 'trail', 'gapAboveTask', 'task'], head, regions), ...center.lines];
	return {
		above,
		panelHeight,
		below: [...message, ...below],
		side: sideLines(sitting, seen, ports, regions, glyphs),
		cursor: {
			x: entry.cursor,
			y: above.length + panelHeight + message.length + below.length - heights.keys - heights.entry,
		},
	};
}

/** Regions one under the other, each at its height. */
function place(
	names: readonly Region[],
	lines: {readonly [R in Region]?: readonly Line[]},
	{heights}: Regions,
): readonly Line[] {
	return names.flatMap(name => toHeight(lines[name] ?? [], heights[name]));
}

const tableNames = regionNames.slice(regionNames.indexOf('how'), regionNames.indexOf('panel'));

/** Rows of a forecast where the table does not show. */
const mostForecast = 4;

/** A picture in fewer rows says nothing. */
const leastPanel = 6;

interface Middle {
	readonly lines: readonly Line[];
	readonly panelHeight: number;
}

/** How-to, table, plate, forecast and picture; or, in their place, what was asked for. */
function middle(sitting: Sitting, seen: Seen, ports: Ports, regions: Regions, glyphs: Glyphs): Middle {
	const {heights, width} = regions;
	const {bench, task, stage} = seen;
	const rows = [...tableNames, 'panel' as const].reduce((sum, name) => sum + heights[name], 0);
	if (sitting.overlay) {
		const lines = overlayLines(sitting.overlay, {sitting, seen, ports}, {width, glyphs});
		return {lines: scrolled(lines, sitting.scroll, rows, glyphs), panelHeight: 0};
	}

	const isPictured = stage?.Panel !== undefined;
	const cautions = (task.cautions ?? []).filter(caution => !sitting.cautionsRead.includes(caution));
	const said = {cautions, how: task.how ?? []};
	// Cautions that would be cut are read whole, once, in place of the table; what the act will move is said below them.
	if (task.tableRests || cautionRows(cautions, width, glyphs) > heights.how) {
		const ahead = forecastLines(actAhead(seen, sitting.entry), bench, {width, glyphs, rows: mostForecast});
		const first = howLines({cautions, how: []}, {width, glyphs, rows: rows - ahead.length - 1});
		const rest = howLines({cautions: [], how: said.how}, {width, glyphs, rows: rows - ahead.length - first.length - 1});
		const how = [blank, ...first, ...ahead, ...rest];
		const left = rows - how.length - 1;
		const isRoomy = left >= Math.max(leastPanel, bench.strings.length + 1);
		const panelHeight = isPictured && isRoomy ? left : 0;
		return {lines: toHeight(how, rows - panelHeight), panelHeight};
	}

	const panelHeight = isPictured ? heights.panel : 0;
	const how = howLines(said, {width, glyphs, rows: heights.how});
	const lines = place(tableNames, {...table(sitting, seen, regions, glyphs), how}, regions);
	return {lines: toHeight(lines, rows - panelHeight), panelHeight};
}

function table(
	{entry}: Sitting,
	seen: Seen,
	{width, heights}: Regions,
	glyphs: Glyphs,
): {readonly [R in Region]?: readonly Line[]} {
	const {bench, task} = seen;
	const {titles, rows: strings} = tableLines(bench, {
		width,
		glyphs,
		asked: stringNamed(entry, bench) ?? task.string,
		subject: task.practice?.kind === 'pluck' && task.practice.how !== 'open' ? 'saddles' : 'pitch',
	});
	return {
		titles: [titles],
		strings,
		plate: [plateLine(bench.plate, bench.sheet, {width, glyphs, blocked: bench.blocked})],
		forecast: forecastLines(actAhead(seen, entry), bench, {width, glyphs, rows: heights.forecast}),
	};
}

/** A window on lines that may be more than fit; the last row says so. */
function scrolled(lines: readonly Line[], from: number, rows: number, glyphs: Glyphs): readonly Line[] {
	if (lines.length <= rows) return toHeight(lines, rows);
	const most = lines.length - (rows - 1);
	const start = Math.min(from, most);
	const more = start < most ? `${glyphs.current} more below: Down` : 'the end: Up goes back';
	return [...lines.slice(start, start + rows - 1), line(more, 'quiet')];
}

/**
 * The message in its rows. One that must be read and is longer takes rows from
 * what stands above it, the picture, the forecast, the plate, never from the
 * strings; the help has it whole.
 */
function messageRows(
	message: Message | undefined,
	{width, heights}: Regions,
	glyphs: Glyphs,
): {readonly message: readonly Line[]; readonly borrowed: number} {
	if (!message) return {message: toHeight([], heights.message), borrowed: 0};
	const {as, text} = message;
	const mark = as === 'attention' ? `${glyphs.attention} ` : as === 'danger' ? `${glyphs.danger} ` : '';
	const most = mark === '' ? 0 : heights.forecast + heights.plate + heights.panel;
	const rows = wrapTo(text, width - mark.length, heights.message + most, glyphs.cut).map((row, index) => [
		span(index === 0 ? mark : ' '.repeat(mark.length), as),
		span(row, as === 'danger' ? 'strong' : as),
	]);
	const height = Math.max(heights.message, rows.length);
	return {message: toHeight(rows, height), borrowed: height - heights.message};
}

/** The middle with that many rows fewer at its end. */
function shortened({lines, panelHeight}: Middle, rows: number): Middle {
	const fromPanel = Math.min(panelHeight, rows);
	return {lines: lines.slice(0, lines.length - (rows - fromPanel)), panelHeight: panelHeight - fromPanel};
}

/** What comes and what was done, where the terminal is wide. */
function sideLines(sitting: Sitting, seen: Seen, ports: Ports, {side}: Regions, glyphs: Glyphs): readonly Line[] {
	if (!side) return [];
	const {width, height} = side;
	const ahead = seen.task.tableRests ? [] : outlookBlock(sitting, seen, ports, width, glyphs);
	const done = recentLines(sitting, seen, width, Math.max(5, height - ahead.length - 1));
	return [...ahead, line('Entered so far', 'strong'), ...done]
		.slice(0, height)
		.map(row => cutLine(row, width, glyphs.cut));
}

function outlookBlock(sitting: Sitting, {bench}: Seen, ports: Ports, width: number, glyphs: Glyphs): readonly Line[] {
	const outlook = ports.outlookOf(sitting.journal.story, sitting.learned);
	return [...orderLines(outlook, bench), blank, ...errorHistoryLines(outlook, bench, {width, glyphs}), blank];
}
