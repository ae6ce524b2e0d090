import type {StringNumber} from '../../music/string-number.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {type Choice, choiceTask} from '../common/choices.ts';
import {fitTask} from '../common/fit-string.ts';
import {lostLine} from '../common/lost-string.ts';
import {passTask} from '../common/going.ts';
import {nameOf, stringsNamed} from '../common/rows.ts';
import {lastOf} from '../common/story.ts';
import {stringCaution} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {words} from './words.ts';

export const id = 'unlock';
export const restring = 'string change';

export const ways = [
	{value: 'stay', label: words.ways.stay, note: words.ways.stayNote},
	{value: 'one', label: words.ways.one, note: words.ways.oneNote},
	{value: 'support', label: words.ways.support, note: words.ways.supportNote},
] as const satisfies readonly Choice[];

/** What is open in this stage, in the order of work. */
export type Step =
	| {readonly kind: 'choose' | 'support' | 'open' | 'centre' | 'done'}
	| {readonly kind: 'remove' | 'fit' | 'raise'; readonly row: StringRow}
	| {readonly kind: 'remove-all' | 'fit-all'; readonly rows: readonly StringRow[]};

export function stepOf(bench: Bench): Step {
	const way = wayOf(bench);
	if (way === undefined) return {kind: 'choose'};
	if (way === 'support' && !bench.blocked && !isFitted(bench, bench.strings[0]!)) return {kind: 'support'};
	if (bench.nut === 'locked') return {kind: 'open'};
	if (lastOf(bench.story, 'FineTunersCentred') < 0) return {kind: 'centre'};
	if (way === 'one') return oneAtATime(bench);
	if (way === 'support') return allAtOnce(bench);
	return {kind: 'done'};
}

/** Only saddles are moved on an `intonation` job, so nothing has to be asked there. */
function wayOf({ways, sheet}: Bench): string | undefined {
	return sheet.job === 'intonation' ? 'stay' : ways[restring];
}

/** Thickest first, as most do: it carries the largest block of tension (common practice, no source). */
function oneAtATime(bench: Bench): Step {
	for (const row of bench.strings.toReversed()) {
		if (row.state === 'off') return {kind: 'fit', row};
		if (!isFitted(bench, row)) return {kind: 'remove', row};
		if (!isRaised(bench, row)) return {kind: 'raise', row};
	}
	return {kind: 'done'};
}

function allAtOnce(bench: Bench): Step {
	const old = bench.strings.filter(row => row.state !== 'off' && !isFitted(bench, row));
	if (old.length > 0) return {kind: 'remove-all', rows: old};
	const off = bench.strings.filter(({state}) => state === 'off');
	return off.length > 0 ? {kind: 'fit-all', rows: off} : {kind: 'done'};
}

function isFitted({story}: Bench, {string}: StringRow): boolean {
	return lastOf(story, 'StringFitted', string) >= 0;
}

function isRaised({story}: Bench, {string}: StringRow): boolean {
	const fitted = lastOf(story, 'StringFitted', string);
	return lastOf(story, 'PegTurned', string) > fitted || lastOf(story, 'PitchRead', string) > fitted;
}

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const progress = progressOf(bench, step);
	switch (step.kind) {
		case 'choose': {
			const usual = bench.sheet.job === 'whole' ? 'stay' : 'one';
			const {headline, why} = words.ways;
			return choiceTask(restring, ways, usual, {
				headline,
				why,
				progress,
				cautions: words.cautions,
			});
		}
		case 'support':
			return simple(words.support, [{type: 'SupportPlaced'}], progress, {tableRests: true});
		case 'open':
			return simple(words.open, [{type: 'NutOpened'}], progress, {cautions: words.cautions, tableRests: true});
		case 'centre':
			return simple(words.centre, [{type: 'FineTunersCentred'}], progress, {tableRests: true});
		case 'remove': {
			const {string} = step.row;
			const said = {
				...words.remove,
				headline: words.remove.headline(nameOf(step.row)),
				how: [...words.remove.how, lostLine(string, bench)],
			};
			const more: Partial<Task> = {string, act: {kind: 'remove', string}, cautions: [stringCaution]};
			return simple(said, removed([string]), progress, more);
		}
		case 'fit':
			return fitTask(step.row, bench, progress);
		case 'raise':
			return raiseTask(step.row, progress);
		case 'remove-all': {
			const strings = step.rows.map(({string}) => string);
			const said = {...words.removeAll, headline: words.removeAll.headline(stringsNamed(strings))};
			const more: Partial<Task> = {
				prompt: words.whichPrompt,
				act: {kind: 'slacken', strings},
				cautions: [stringCaution],
			};
			return simple(said, removed(strings), progress, more);
		}
		case 'fit-all': {
			const strings = step.rows.map(({string}) => string);
			const said = {...words.fitAll, headline: words.fitAll.headline(stringsNamed(strings))};
			return simple(said, fitted(strings), progress, {prompt: words.whichPrompt, cautions: [stringCaution]});
		}
		case 'done':
			return passTask(id, {
				headline: words.done.headline,
				why: bench.blocked ? words.done.blocked : words.done.free,
			});
	}
}

export function removed(strings: readonly StringNumber[]): readonly Deed[] {
	return strings.flatMap(string => [
		{type: 'StringSlackened', string} as const,
		{type: 'StringRemoved', string} as const,
	]);
}

export function fitted(strings: readonly StringNumber[]): readonly Deed[] {
	return strings.map(string => ({type: 'StringFitted', string}) as const);
}

/** Enter says that it was done as told. */
function simple(
	said: {readonly headline: string; readonly why: string; readonly how: readonly string[]; readonly enter: string},
	deeds: readonly Deed[],
	progress: number,
	more: Partial<Task> = {},
): Task {
	const {headline, why, how, enter} = said;
	const practice = {kind: 'deeds', deeds} as const;
	return {headline, why, how, prompt: enter, enter: {label: enter, deeds}, practice, progress, ...more};
}

function raiseTask(row: StringRow, progress: number): Task {
	const {string} = row;
	const {headline, why, how, prompt, enter} = words.raise;
	return {
		headline: headline(nameOf(row)),
		why,
		how,
		prompt: prompt(nameOf(row)),
		example: '-20',
		string,
		act: {kind: 'turn', string, toCents: 0},
		cautions: [stringCaution],
		enter: {label: enter, deeds: [{type: 'PegTurned', string, untilCents: 0}]},
		practice: {kind: 'turn', string, toCents: 0, by: 'peg'},
		progress,
	};
}

const order = ['choose', 'support', 'open', 'centre'] as const;

function progressOf(bench: Bench, step: Step): number {
	if (step.kind === 'done') return 1;
	const place = (order as readonly string[]).indexOf(step.kind);
	if (place >= 0) return place / 10;
	const on = bench.strings.filter(row => isFitted(bench, row)).length;
	const off = bench.strings.filter(({state}) => state === 'off').length;
	return 0.4 + (0.6 * (on + off / 2)) / (bench.strings.length + 1);
}
