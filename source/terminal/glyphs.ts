/**
 * Every drawing character in one table: [Unicode, ASCII]. Screens name what
 * a character is for and never write one themselves, so both sets stay whole.
 */
const table = {
	done: ['✓', '+'],
	current: ['▸', '>'],
	waiting: ['·', '.'],
	again: ['↺', '<'],
	beside: ['▌', '|'],
	attention: ['▲', '!'],
	danger: ['■', '!!'],
	good: ['●', '*'],
	cut: ['…', '~'],
	prompt: ['›', '>'],
	post: ['┃', '|'],
	postGood: ['◆', '*'],
	brick: ['█', '#'],
	mortar: ['▒', '%'],
	rung: ['·', '.'],
	beyondFlat: ['◄', '<'],
	beyondSharp: ['►', '>'],
	aim: ['◇', 'o'],
	/** A column's heights, low to high, one character each. */
	levels: ['▁▂▃▄▅▆▇█', '.:-=+*#@'],
	atHome: ['·', ','],
	rule: ['─', '-'],
	full: ['▰', '#'],
	empty: ['▱', '-'],
} as const satisfies Record<string, readonly [unicode: string, ascii: string]>;

export type GlyphName = keyof typeof table;
export type Glyphs = {readonly [Name in GlyphName]: string};

function column(index: 0 | 1): Glyphs {
	return Object.fromEntries(Object.entries(table).map(([name, pair]) => [name, pair[index]])) as Glyphs;
}

export const unicodeGlyphs = column(0);
export const asciiGlyphs = column(1);

/** Environment variables, as in `process.env`. */
export type Environment = Readonly<Record<string, string | undefined>>;

/**
 * Whether this terminal is likely to draw the Unicode set. A locale that is
 * named and is not UTF-8 says no, and so do consoles with a small font.
 */
export function drawsUnicode(environment: Environment): boolean {
	if (environment.TERM === 'linux' || environment.TERM === 'dumb') return false;
	const locale = environment.LC_ALL || environment.LC_CTYPE || environment.LANG;
	return locale ? /utf-?8/i.test(locale) : true;
}
