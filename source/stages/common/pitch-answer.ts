import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../../session/bench.ts';
import {type Reading, pitchReads, readReading} from '../../session/entry/reading.ts';
import {type ReadingContext, readingContext} from '../../session/entry/reading-context.ts';
import type {Deed, How} from '../../session/facts.ts';
import {formatCents, formatCentsSpread} from '../../units/cents.ts';
import type {Answer, Task} from '../stage.ts';
import {isStretchTask, saidToBe, takeChoice} from './guided.ts';
import {readingsAfter} from './story.ts';
import {surprise as words} from './words.ts';

/** What a typed pitch is about. */
interface Asked {
	readonly string: StringNumber;
	readonly how: How;
	/** Where the asked string was to be turned to, if it was to be turned. */
	readonly toCents?: number;
	/** True if the asked string was to be pulled before the pluck. */
	readonly pulled?: boolean;
}

/** Spread of where a hand stops when it was told a pitch: wide, because some stop early. */
const handSdCents = 6;

/** A reading of a string that has not been touched surprises from here on: both must be exceeded. */
const surprising = {sds: 4, cents: 8} as const;

/** Text typed at a step of a guided pass. */
export function answerGuided(text: string, task: Task, bench: Bench, meant = false): Answer {
	const string = task.string ?? bench.strings[0]!.string;
	const toCents = task.act?.kind === 'turn' ? task.act.toCents : undefined;
	return answerPitch(
		text,
		{string, how: 'open', pulled: isStretchTask(task), ...(toCents !== undefined && {toCents})},
		bench,
		meant,
	);
}

/** `5: -12` or `5:`: names its string, so it can be taken even where nothing is asked. */
export function isAboutString(text: string): boolean {
	return /^\s*(?:string\s*)?\d\s*:/i.test(text);
}

/** What a typed pitch becomes: facts, a question, or a refusal that says what would do. */
export function answerPitch(text: string, asked: Asked, bench: Bench, meant = false): Answer {
	const broken = brokenIn(text, asked, bench);
	if (broken) return {kind: 'deeds', deeds: [{type: 'StringRemoved', string: broken}]};
	const {rest, slipped} = withoutSlip(text);
	const context = contextOf(asked, bench);
	const entry = readReading(meant && !rest.endsWith('!') ? `${rest}!` : rest, context);
	switch (entry.kind) {
		case 'refused':
			return {kind: 'refused', said: entry.said};
		case 'select':
			return {kind: 'deeds', deeds: [{type: 'WayChosen', choice: takeChoice, value: String(entry.string)}]};
		case 'slack':
			return {kind: 'deeds', deeds: [{type: 'StringSlackened', string: entry.string}]};
		case 'doubtful': {
			if (slipped) return {kind: 'deeds', deeds: slipDeeds(entry.reading, asked.how)};
			const mayHaveSlipped = expectedOf(entry.reading, asked, bench) !== undefined;
			const said = mayHaveSlipped ? `${entry.said} ${words.orSlipped(rest)}` : entry.said;
			return {kind: 'question', said, deedsIfMeant: deedsOf(entry.reading, asked, bench)};
		}
		case 'reading': {
			if (slipped) return {kind: 'deeds', deeds: slipDeeds(entry, asked.how)};
			const said = entry.meant ? undefined : surpriseIn(entry, asked, bench, rest);
			if (said === undefined) return {kind: 'deeds', deeds: deedsOf(entry, asked, bench)};
			return {kind: 'question', said, deedsIfMeant: deedsOf({...entry, meant: true}, asked, bench)};
		}
	}
}

/** `broke` or `3: broke`: that string is off now. */
function brokenIn(text: string, asked: Asked, {strings}: Bench): StringNumber | undefined {
	const [found, number = String(asked.string)] = /^\s*(?:(\d)\s*:\s*)?(?:broke|broken)\s*$/i.exec(text) ?? [];
	return found === undefined ? undefined : strings.find(({string}) => String(string) === number)?.string;
}

/** `+31 s` or `+31 slipped`: the string slipped, so what was believed of it no longer holds. */
function withoutSlip(text: string): {readonly rest: string; readonly slipped: boolean} {
	const [, rest] = /^(.*[\d.,zt!¢])\s*s(?:lipped)?\s*$/iu.exec(text) ?? [];
	return rest === undefined ? {rest: text, slipped: false} : {rest, slipped: true};
}

/** A turned string is expected where it was to be turned to, not where it stood before. */
function contextOf(asked: Asked, bench: Bench): ReadingContext {
	const context = readingContext(bench, asked.string, asked.how);
	const strings = context.strings.map(({expected, ...row}) => {
		if (!isTurned(row.string, asked, bench) && !isPulled(row.string, asked)) return expected ? {...row, expected} : row;
		const {toCents} = asked;
		return row.string === asked.string && toCents !== undefined
			? {...row, expected: {mean: toCents, sd: handSdCents}}
			: row;
	});
	return {...context, strings};
}

function surpriseIn(reading: Reading, asked: Asked, bench: Bench, typed: string): string | undefined {
	const expected = expectedOf(reading, asked, bench);
	if (!expected) return undefined;
	const off = Math.abs(reading.cents - expected.mean);
	if (off <= surprising.cents || off <= surprising.sds * expected.sd) return undefined;
	return `${words.unexpected(formatCentsSpread(expected), formatCents(reading.cents))} ${words.orSlipped(typed)}`;
}

/** Expectation for a string that was only plucked. */
function expectedOf({string}: Reading, asked: Asked, bench: Bench) {
	if (isTurned(string, asked, bench) || isPulled(string, asked)) return undefined;
	return asked.how === 'fretted' ? frettedBefore(string, bench) : bench.expectReading(string, asked.how);
}

/** Spread of a finger that presses twice, with the tuner's: wide, because some bend. */
const fingerSdCents = 2;

/** A note that was fretted at the 12th a moment ago, nothing touched since, comes again. */
function frettedBefore(string: StringNumber, {story, lastAdjustment}: Bench) {
	const last = readingsAfter(story, string, 'fretted', lastAdjustment).at(-1);
	return last && {mean: last.cents, sd: fingerSdCents};
}

function deedsOf(reading: Reading, asked: Asked, bench: Bench): readonly Deed[] {
	const {string} = reading;
	const reads = pitchReads(reading, asked.how);
	if (isPulled(string, asked)) return [{type: 'StringStretched', string}, ...reads];
	if (!isTurned(string, asked, bench)) return reads;
	const type = bench.nut === 'locked' ? 'FineTunerTurned' : 'PegTurned';
	const isAsked = string === asked.string && asked.toCents !== undefined;
	return [{type, string, ...(isAsked && {untilCents: asked.toCents})}, ...reads];
}

function slipDeeds(reading: Reading, how: How): readonly Deed[] {
	return [{type: 'StringSlipped', string: reading.string}, ...pitchReads({...reading, meant: true}, how)];
}

/** The asked string was turned when turning was asked for, another one was only plucked; unless the person said otherwise. */
function isTurned(string: StringNumber, asked: Asked, bench: Bench): boolean {
	if (asked.how !== 'open' || asked.pulled) return false;
	const said = saidToBe(bench);
	if (said) return said === 'turned';
	return string === asked.string && asked.toCents !== undefined;
}

function isPulled(string: StringNumber, asked: Asked): boolean {
	return asked.pulled === true && string === asked.string;
}
