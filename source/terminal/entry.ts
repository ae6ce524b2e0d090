/** What is typed and not yet submitted. Lengths and positions in UTF-16 units. */
export interface Entry {
	readonly text: string;
	/** Where the next character goes, 0 to `text.length`. */
	readonly cursor: number;
}

export const emptyEntry: Entry = {text: '', cursor: 0};

/** Longest line kept; more than any reading, name or note needs. */
export const entryLimit = 240;

export function entryOf(text: string): Entry {
	const kept = text.slice(0, entryLimit);
	return {text: kept, cursor: kept.length};
}

/** Puts text at the cursor; line feeds and tabs become spaces, other control characters go. */
export function insert({text, cursor}: Entry, typed: string): Entry {
	// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is being removed
	const clean = typed.replaceAll(/[\t\r\n]+/g, ' ').replaceAll(/[\u0000-\u001f\u007f-\u009f]/g, '');
	const room = Math.max(0, entryLimit - text.length);
	const added = clean.slice(0, room);
	return {text: text.slice(0, cursor) + added + text.slice(cursor), cursor: cursor + added.length};
}

export const edits = {
	left: ({text, cursor}) => ({text, cursor: stepBack(text, cursor)}),
	right: ({text, cursor}) => ({text, cursor: stepOn(text, cursor)}),
	home: ({text}) => ({text, cursor: 0}),
	end: ({text}) => ({text, cursor: text.length}),
	backspace: ({text, cursor}) => {
		const before = stepBack(text, cursor);
		return {text: text.slice(0, before) + text.slice(cursor), cursor: before};
	},
	delete: ({text, cursor}) => ({text: text.slice(0, cursor) + text.slice(stepOn(text, cursor)), cursor}),
	clear: () => emptyEntry,
	'rub-word': ({text, cursor}) => {
		const before = text.slice(0, cursor).replace(/\S*\s*$/, '');
		return {text: before + text.slice(cursor), cursor: before.length};
	},
} as const satisfies Record<string, (entry: Entry) => Entry>;

export type Edit = keyof typeof edits;

// A character outside the basic plane is two units; the cursor never stands inside one.
function stepBack(text: string, cursor: number): number {
	const last = [...text.slice(0, cursor)].at(-1);
	return cursor - (last?.length ?? 0);
}

function stepOn(text: string, cursor: number): number {
	const next = text.codePointAt(cursor);
	return next === undefined ? cursor : cursor + String.fromCodePoint(next).length;
}
