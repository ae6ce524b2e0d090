/** Rows and columns of the set-up screen, all in character cells. */
export interface Regions {
	readonly width: number;
	readonly heights: {readonly [R in Region]: number};
	/** Column to the right for what was done and what comes; absent where there is no room. */
	readonly side?: {readonly width: number; readonly height: number};
}

export const regionNames = [
	'header',
	'trail',
	'gapAboveTask',
	'task',
	'how',
	'gapAboveTable',
	'titles',
	'strings',
	'plate',
	'forecast',
	'panel',
	'message',
	'ear',
	'gapAboveEntry',
	'entry',
	'keys',
] as const;
export type Region = (typeof regionNames)[number];

export const smallest = {columns: 60, rows: 18} as const;

const sideGap = 2;

/**
 * The set-up screen's regions. They depend on the terminal and the number of
 * strings only, never on what is shown, so nothing jumps from one entry to
 * the next. One row is left free: a frame as tall as the terminal makes some
 * terminals scroll.
 *
 * @param strings 6, 7 or 8.
 * @param isListening Room for what is heard: a row given up by others.
 * @returns Undefined if the terminal is smaller than `smallest`.
 */
export function regionsFor(
	{columns, rows}: {readonly columns: number; readonly rows: number},
	strings: number,
	isListening = false,
): Regions | undefined {
	if (columns < smallest.columns || rows < smallest.rows) return undefined;
	const height = rows - 1;
	const usual = heightsFor(height, strings);
	const heights = isListening ? withEar(usual) : usual;
	const sideWidth = columns >= 112 ? Math.min(60, columns - 82) : 0;
	return {
		width: columns - (sideWidth > 0 ? sideWidth + sideGap : 0) - 2,
		heights,
		...(sideWidth > 0 && {side: {width: sideWidth - 1, height: height - heights.header - heights.trail - 1}}),
	};
}

/** What a small terminal has, then what is added as rows allow, most useful first. */
const wishes: readonly Region[] = [
	'titles',
	'message',
	'how',
	'plate',
	'forecast',
	'trail',
	'how',
	'gapAboveTask',
	'forecast',
	'gapAboveTable',
	'how',
	'gapAboveEntry',
	'how',
	'message',
];

/** Who gives up a row while the program listens, first who misses it least; none gives its last but those named twice. */
const givers: readonly (readonly [region: Region, least: number])[] = [
	['gapAboveEntry', 0],
	['how', 1],
	['message', 1],
	['how', 0],
	['titles', 0],
	['forecast', 0],
];

function withEar(heights: Regions['heights']): Regions['heights'] {
	const [giver] = givers.find(([region, least]) => heights[region] > least) ?? [];
	return giver === undefined ? heights : {...heights, [giver]: heights[giver] - 1, ear: 1};
}

function heightsFor(height: number, strings: number): Regions['heights'] {
	const heights: Record<Region, number> = {
		header: 1,
		trail: 0,
		gapAboveTask: 0,
		// Headline and why.
		task: 3,
		how: 0,
		gapAboveTable: 0,
		titles: 0,
		strings,
		plate: 0,
		forecast: 1,
		panel: 0,
		message: 1,
		ear: 0,
		gapAboveEntry: 0,
		entry: 1,
		keys: 1,
	};
	const spare = () => height - Object.values(heights).reduce((sum, rows) => sum + rows, 0);
	for (const region of wishes) if (spare() > 0) heights[region] += 1;
	const left = Math.max(0, spare());
	// A picture needs some rows to say anything; fewer go to the how-to.
	heights[left >= 6 ? 'panel' : 'how'] += left;
	return heights;
}
