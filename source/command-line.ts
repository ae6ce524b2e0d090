import {parseArgs} from 'node:util';
import {closestMatch} from 'leven';
import {type HearChoice, readHearChoice} from './shell/ears/hear-choice.ts';

/**
 * What to do is a word (`evenfloat practice 7`), how to do it is an option
 * (`--plain`). One table each; the parser, the help text and the suggestions
 * read both.
 */
interface Word {
	readonly name: string;
	/** In the help text; brackets mean that it may be left out. */
	readonly takes?: 'GUITAR' | 'FILE' | '[ID]' | '[SEED]';
	readonly help: string;
}

const words = [
	{name: 'open', takes: '[ID]', help: 'go on with a set-up, or with the last unfinished one'},
	{name: 'practice', takes: '[SEED]', help: 'a simulated guitar; the same seed is the same guitar'},
	{name: 'list', help: 'print the set-ups kept, newest first'},
	{name: 'history', takes: 'GUITAR', help: 'print its set-ups compared, and the age of its strings'},
	{
		name: 'recheck',
		takes: 'GUITAR',
		help: 'judge today’s readings, piped in, against how it was left',
	},
	{name: 'export', takes: 'GUITAR', help: 'print a guitar, by name or ID, with all its set-ups as JSON'},
	{name: 'import', takes: 'FILE', help: 'add a guitar from such a file; - reads from the pipe'},
] as const satisfies readonly Word[];

const options = {
	plain: {type: 'boolean', help: 'line by line, for screen readers, simple terminals and pipes'},
	hear: {type: 'string', takes: 'SOURCE', help: 'read pitches by ear: live, a WAV file, or - for a pipe'},
	store: {type: 'string', takes: 'FOLDER', help: 'keep everything in this folder (or set EVENFLOAT_STORE)'},
	ascii: {type: 'boolean', help: 'plain letters and signs only'},
	'no-color': {type: 'boolean', help: 'no colours (or set NO_COLOR)'},
	help: {type: 'boolean', short: 'h', help: 'print this and end'},
	version: {type: 'boolean', short: 'v', help: 'print the version and end'},
} as const satisfies Readonly<
	Record<string, {type: 'boolean' | 'string'; short?: string; takes?: string; help: string}>
>;

/** 0 done; 1 could not be done (the sentence says why); 2 the command line was not understood. */
export const exitCodes = {done: 0, problem: 1, usage: 2} as const;

/** What the person wants. */
export type Wish =
	/** The wizard's first screen. */
	| {readonly kind: 'start'}
	| {readonly kind: 'open'; readonly id?: string}
	| {readonly kind: 'practice'; readonly seed?: number}
	| {readonly kind: 'list'}
	/** By name or id. */
	| {readonly kind: 'history' | 'recheck'; readonly guitar: string}
	| {readonly kind: 'export'; readonly guitar: string}
	/** `-` is standard input. */
	| {readonly kind: 'import'; readonly file: string}
	| {readonly kind: 'help'}
	| {readonly kind: 'version'};

export interface Manner {
	readonly plain: boolean;
	readonly ascii: boolean;
	readonly noColor: boolean;
	readonly store?: string;
	/** Listening from the start, to this. */
	readonly hear?: HearChoice;
}

export type CommandLine =
	| {readonly ok: true; readonly wish: Wish; readonly manner: Manner}
	/** To be printed to standard error; ends with where to find help. */
	| {readonly ok: false; readonly said: string; readonly exitCode: typeof exitCodes.usage};

/** @param given Without the program's own name: `process.argv.slice(2)`. */
export function parseCommandLine(given: readonly string[]): CommandLine {
	const {values, positionals, tokens} = parseArgs({
		args: [...given],
		options,
		// Refusals are worded here, with the nearest option, so the parser only has to cut.
		strict: false,
		allowPositionals: true,
		tokens: true,
	});
	for (const token of tokens) {
		if (token.kind !== 'option') continue;
		const said = optionTrouble(token);
		if (said) return refuse(said);
	}
	const isSet = (name: 'plain' | 'ascii' | 'no-color' | 'help' | 'version'): boolean => values[name] === true;
	const store = typeof values.store === 'string' ? values.store : undefined;
	const hear = typeof values.hear === 'string' ? readHearChoice(values.hear) : undefined;
	if (typeof hear === 'string') return refuse(`--hear: ${hear}`);
	const manner: Manner = {
		plain: isSet('plain'),
		ascii: isSet('ascii'),
		noColor: isSet('no-color'),
		...(store === undefined ? {} : {store}),
		...(hear && {hear}),
	};
	// Asked for help, everything else may wait.
	if (isSet('help')) return {ok: true, wish: {kind: 'help'}, manner};
	if (isSet('version')) return {ok: true, wish: {kind: 'version'}, manner};
	const wish = wishFrom(positionals);
	return typeof wish === 'string' ? refuse(wish) : {ok: true, wish, manner};
}

function optionTrouble({
	name,
	rawName,
	value,
}: {
	name: string;
	rawName: string;
	value?: string | undefined;
}): string | undefined {
	if (!Object.hasOwn(options, name)) return `Unknown option ${rawName}. ${suggestion(rawName)}`;
	const option = options[name as keyof typeof options];
	if (option.type === 'string') {
		const isGiven = value !== undefined && value !== '' && !value.startsWith('--');
		return isGiven
			? undefined
			: `${rawName} needs a ${option.takes}, for example: ${rawName} ${optionExamples[option.takes]}`;
	}
	return value === undefined ? undefined : `${rawName} takes no value; read ${value}. Write ${rawName} alone.`;
}

function wishFrom([first, ...rest]: readonly string[]): Wish | string {
	if (first === undefined) return {kind: 'start'};
	const word: Word | undefined = words.find(({name}) => name === first);
	if (word === undefined) return `Unknown word ${first}. ${suggestion(first)}`;
	const [value, extra] = rest;
	const most = word.takes === undefined ? 0 : 1;
	if (rest.length > most) {
		return `${first} takes ${most === 0 ? 'nothing' : `one ${word.takes?.replaceAll(/[[\]]/g, '')}`}; read also ${most === 0 ? value : extra}. ${exampleOf(word)}`;
	}
	switch (first as (typeof words)[number]['name']) {
		case 'open':
			return value === undefined ? {kind: 'open'} : {kind: 'open', id: value};
		case 'practice': {
			if (value === undefined) return {kind: 'practice'};
			const isSeed = /^\d+$/.test(value) && Number(value) <= largestSeed;
			if (!isSeed) return `SEED: read ${value}; allowed is a whole number from 0 to ${largestSeed}. ${exampleOf(word)}`;
			return {kind: 'practice', seed: Number(value)};
		}
		case 'list':
			return {kind: 'list'};
		case 'history':
		case 'recheck':
			return value === undefined
				? `${first} needs a GUITAR. ${exampleOf(word)}`
				: {kind: first === 'history' ? 'history' : 'recheck', guitar: value};
		case 'export':
			return value === undefined ? `export needs a GUITAR. ${exampleOf(word)}` : {kind: 'export', guitar: value};
		case 'import':
			return value === undefined ? `import needs a FILE. ${exampleOf(word)}` : {kind: 'import', file: value};
	}
}

/** Largest seed: 32 bits, what the random numbers start from. */
const largestSeed = 2 ** 32 - 1;

const examples = {GUITAR: '"Red seven-string"', FILE: 'guitar.json', '[ID]': '260131-k7dm', '[SEED]': '7'} as const;

const optionExamples = {FOLDER: './bench', SOURCE: 'live'} as const;

function exampleOf({name, takes}: Word): string {
	return `For example: evenfloat ${name}${takes ? ` ${examples[takes]}` : ''}`;
}

/** The nearest word or option, if one is near enough to have been meant. */
function suggestion(typed: string): string {
	const bare = typed.replace(/^-+/, '').toLowerCase();
	const names = [...words.map(({name}) => name), ...Object.keys(options)];
	// Two letters swapped count as two; of three letters or fewer only one can be wrong.
	const most = bare.length <= 3 ? 1 : Math.max(2, Math.floor(bare.length / 3));
	const started = bare.length >= 3 ? names.filter(name => name.startsWith(bare)) : [];
	const nearest = started.length === 1 ? started[0] : closestMatch(bare, names, {maxDistance: most});
	if (nearest === undefined) {
		return typed.startsWith('-')
			? `Options are: ${Object.keys(options)
					.map(name => `--${name}`)
					.join(', ')}.`
			: `Words are: ${words.map(({name}) => name).join(', ')}.`;
	}
	return `Did you mean: evenfloat ${nearest in options ? `--${nearest}` : nearest}`;
}

function refuse(said: string): CommandLine {
	return {ok: false, said: `${said}\nevenfloat --help shows all.`, exitCode: exitCodes.usage};
}

/** Printed by `--help`. */
export function helpText(): string {
	const wordRows = words.map((word: Word) => [`${word.name}${word.takes ? ` ${word.takes}` : ''}`, word.help] as const);
	const optionRows = Object.entries(options).map(([name, option]) => {
		const short = 'short' in option ? `, -${option.short}` : '';
		const takes = 'takes' in option ? ` ${option.takes}` : '';
		return [`--${name}${takes}${short}`, option.help] as const;
	});
	const width = Math.max(...[...wordRows, ...optionRows].map(([left]) => left.length)) + 2;
	const table = (rows: readonly (readonly [string, string])[]) =>
		rows.map(([left, right]) => `  ${left.padEnd(width)}${right}`).join('\n');
	return `Sets up a guitar with a double-locking floating bridge, step by step.

  evenfloat                      start
  evenfloat WORD [OPTIONS]

Words
${table(wordRows)}

Options
${table(optionRows)}

Exit codes
  0  done
  1  could not be done; the sentence says why
  2  the command line was not understood
`;
}
