/**
 * Keys by name, whatever the terminal sent: a printable character is itself,
 * the rest have words, `ctrl+` before a letter held with Control.
 */
export type Stroke = string;

/** The part of Ink's key that matters here. */
export interface RawKey {
	readonly upArrow: boolean;
	readonly downArrow: boolean;
	readonly leftArrow: boolean;
	readonly rightArrow: boolean;
	readonly pageUp: boolean;
	readonly pageDown: boolean;
	readonly home: boolean;
	readonly end: boolean;
	readonly return: boolean;
	readonly escape: boolean;
	readonly ctrl: boolean;
	readonly shift: boolean;
	readonly tab: boolean;
	readonly backspace: boolean;
	readonly delete: boolean;
	readonly meta: boolean;
}

const named = [
	['upArrow', 'up'],
	['downArrow', 'down'],
	['leftArrow', 'left'],
	['rightArrow', 'right'],
	['pageUp', 'pageup'],
	['pageDown', 'pagedown'],
	['home', 'home'],
	['end', 'end'],
	['return', 'enter'],
	['escape', 'escape'],
	['tab', 'tab'],
	['backspace', 'backspace'],
	['delete', 'delete'],
] as const satisfies readonly (readonly [keyof RawKey, string])[];

/**
 * One chunk of input as strokes, in order. Fast typing and pastes arrive as
 * one chunk of many characters, line feed included ("12.5\r"), so a chunk is
 * a list, never a character. A letter with Alt is dropped: a lone Escape
 * followed quickly by a letter looks the same, and must not act as either.
 */
export function strokesOf(input: string, key: RawKey): readonly Stroke[] {
	const name = named.find(([flag]) => key[flag])?.[1];
	if (name) return key.shift && name === 'tab' ? ['shift+tab'] : [name];
	if (key.ctrl) return /^[a-z]$/i.test(input) ? [`ctrl+${input.toLowerCase()}`] : [];
	if (key.meta) return [];
	return strokesOfText(input);
}

/** Text as strokes: line ends are Enter, spaces and characters are themselves. */
export function strokesOfText(text: string): readonly Stroke[] {
	return [...text.replaceAll(/\r\n?|\n/g, '\r')].flatMap(character => {
		if (character === '\r') return ['enter'];
		if (character === '\t') return ['tab'];
		return character < ' ' || character === '\u007f' ? [] : [character];
	});
}

/** True for strokes that are characters and may go on the entry line. */
export function isCharacter(stroke: Stroke): boolean {
	return [...stroke].length === 1;
}

const shown: Readonly<Record<string, string>> = {
	enter: 'Enter',
	escape: 'Esc',
	tab: 'Tab',
	'shift+tab': 'Shift-Tab',
	up: 'Up',
	down: 'Down',
	left: 'Left',
	right: 'Right',
	pageup: 'PgUp',
	pagedown: 'PgDn',
	home: 'Home',
	end: 'End',
	backspace: 'Backspace',
	delete: 'Del',
	' ': 'Space',
};

/** A stroke as it is printed on keys and in hints. */
export function nameOf(stroke: Stroke): string {
	return shown[stroke] ?? (stroke.startsWith('ctrl+') ? `Ctrl-${stroke.slice(5).toUpperCase()}` : stroke);
}
