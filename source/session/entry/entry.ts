/**
 * What comes of something typed. Nothing here throws, whatever was typed: a
 * person's slip is a value, in words that a screen can show as they are. The
 * words name no key; how "I meant it" is said is the front end's to add. An
 * exclamation mark at the end of the entry says it at once.
 */
export type Entry<T> = Value<T> | Doubtful<T> | Refused;

export interface Value<T> {
	readonly kind: 'value';
	readonly value: T;
	/** As typed, without control characters and outer blanks. */
	readonly entered: string;
}

/** Possible, but surprising: to be taken only if the person means it. Holds all that was typed. */
export interface Doubtful<T> {
	readonly kind: 'doubtful';
	readonly said: string;
	readonly value: T;
	readonly entered: string;
}

export interface Refused {
	readonly kind: 'refused';
	readonly code: RefusalCode;
	/** What was read, what is wrong, what is allowed, an example: one to three sentences. */
	readonly said: string;
}

export type RefusalCode =
	| 'empty'
	| 'too-long'
	| 'not-understood'
	| 'letter-for-digit'
	| 'ambiguous'
	| 'out-of-range'
	| 'no-such-string'
	| 'mixed'
	| 'too-many'
	| 'wrong-count';

export interface Slip {
	readonly code: RefusalCode;
	/** The whole entry, cleaned. */
	readonly read: string;
	/** What is wrong with it, a clause without full stop. */
	readonly wrong: string;
	/** What was perhaps meant: an entry that would be taken. */
	readonly perhaps?: string;
	/** What is allowed, a clause: "cents, hertz or a note". */
	readonly allowed: string;
	/** An entry that would be taken. */
	readonly example: string;
}

/** The one grammar of refusals. */
export function refuse({code, read, wrong, perhaps, allowed, example}: Slip): Refused {
	const meant = perhaps === undefined ? '' : `; did you mean ${perhaps}?`;
	const stop = meant === '' ? '.' : '';
	const said = `${readAs(read)}: ${wrong}${meant}${stop} Allowed: ${allowed}. Example: ${example}`;
	return {kind: 'refused', code, said};
}

/** The one grammar of questions: what it would mean, why it surprises, what was perhaps meant. */
export function doubt(read: string, why: string, perhaps?: string): string {
	return `${readAs(read)}: ${why}.${perhaps === undefined ? '' : ` Perhaps ${perhaps}?`}`;
}

function readAs(read: string): string {
	const characters = Array.from(read);
	if (characters.length === 0) {
		return 'Read nothing';
	}

	// A long paste must not push the rest of the sentence off the screen.
	return `Read “${characters.length > 24 ? `${characters.slice(0, 23).join('')}…` : read}”`;
}

/** Longest entry that is looked at, characters. */
export const longestEntry = 120;

export function tooLong(read: string, allowed: string, example: string): Refused {
	return refuse({code: 'too-long', read, wrong: `longer than ${longestEntry} characters`, allowed, example});
}
