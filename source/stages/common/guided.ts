import type {StringNumber} from '../../music/string-number.ts';
import type {Act, Bench, StringRow, TuningReason} from '../../session/bench.ts';
import type {PracticeMove, Task} from '../stage.ts';
import {fitTask} from './fit-string.ts';
import {lostLine} from './lost-string.ts';
import {nameOf, rowOf} from './rows.ts';
import {aimShown} from './say.ts';
import {choiceAfter, lastOf} from './story.ts';
import {blockedReason, fit, guided as words, reasonWords, stringCaution} from './words.ts';

/** Names of the choices that a guided pass leaves in the story. */
export const takeChoice = 'string';
export const readingIsChoice = 'next reading';

/**
 * The next step of a guided pass: turn, pluck or pull one string. Every stage
 * that tunes shares it, with pegs while the nut is open and with fine tuners
 * once it is locked. Undefined when nothing is left to turn or read.
 */
export function guidedTask(bench: Bench, progress: number): Task | undefined {
	const off = bench.strings.find(({state}) => state === 'off');
	if (off) return lostTask(off, bench, progress);
	const taken = takenString(bench);
	if (taken) {
		const row = rowOf(bench, taken);
		if (row.aim) return turnTask(bench, row, {aimCents: row.aim.mean, gentle: false, why: words.taken}, progress);
		return readTask(bench, row, words.taken, progress);
	}
	const advice = bench.tuning;
	if (advice.kind === 'done') return undefined;
	const row = rowOf(bench, advice.string);
	if (advice.why === 'settling' && !isPulledSinceRead(bench, row.string)) return stretchTask(bench, row, progress);
	const why = whyOf(bench, advice.why);
	if (advice.kind === 'read') return readTask(bench, row, why, progress);
	return turnTask(bench, row, {aimCents: advice.aimCents.mean, gentle: advice.gentle, why}, progress);
}

/** One that broke on the way: a like one goes on, and what doing without it would take is said. */
function lostTask(row: StringRow, bench: Bench, progress: number): Task {
	const task = fitTask(row, bench, progress);
	if (bench.blocked) return task;
	return {...task, why: fit.likeOne, how: [lostLine(row.string, bench), ...(task.how ?? [])]};
}

/** A string that the person took out of turn, until it is read. */
export function takenString(bench: Bench): StringNumber | undefined {
	const value = choiceAfter(bench.story, takeChoice, lastOf(bench.story, 'PitchRead'));
	return bench.strings.find(({string}) => String(string) === value)?.string;
}

/** How far a pass is: strings read count a third, strings within tolerance the rest. */
export function tuningShare({strings, toleranceCents, tuning}: Bench): number {
	if (tuning.kind === 'done') return 1;
	const read = strings.filter(({now}) => now !== undefined).length;
	const home = strings.filter(({now}) => now && Math.abs(now.mean) <= toleranceCents).length;
	return (read / 3 + (2 * home) / 3) / (strings.length + 1);
}

/** Pluck one string, open. */
export function readTask(bench: Bench, row: StringRow, why: string, progress: number): Task {
	const pulled = isPulledSinceRead(bench, row.string);
	return {
		headline: words.read(nameOf(row)),
		why,
		how: [words.softly, otherString(bench), words.take],
		prompt: words[pulled ? 'afterStretching' : promptFor(bench, 'pluck')](nameOf(row)),
		example: '-12',
		string: row.string,
		practice: {kind: 'pluck', string: row.string, how: 'open'},
		progress,
	};
}

function turnTask(
	bench: Bench,
	row: StringRow,
	{aimCents, gentle, why}: {readonly aimCents: number; readonly gentle: boolean; readonly why: string},
	progress: number,
): Task {
	const act: Act = {kind: 'turn', string: row.string, toCents: aimCents};
	const way = !row.now || row.now.mean <= aimCents ? words.up : words.down;
	const practice: PracticeMove = {
		kind: 'turn',
		string: row.string,
		toCents: aimCents,
		by: bench.nut === 'locked' ? 'fine-tuner' : 'peg',
	};
	return {
		headline: words[gentle ? 'gentle' : 'turn'](nameOf(row), way, aimShown(row, aimCents, bench)),
		why,
		how: [words.comeUp, otherString(bench), words.softly],
		prompt: words[promptFor(bench, 'turn')](nameOf(row)),
		example: aimExample(aimCents),
		string: row.string,
		act,
		cautions: [stringCaution],
		practice,
		progress,
	};
}

function stretchTask(bench: Bench, row: StringRow, progress: number): Task {
	return {
		headline: words.stretch(nameOf(row)),
		why: whyOf(bench, 'settling'),
		how: [words.stretchHow, words.softly],
		prompt: words.afterStretching(nameOf(row)),
		example: '-20',
		string: row.string,
		cautions: [stringCaution],
		practice: {kind: 'deeds', deeds: [{type: 'StringStretched', string: row.string}]},
		progress,
	};
}

/** True when the asked string is to be pulled first; a reading typed then was made after pulling. */
export function isStretchTask(task: Task): boolean {
	return task.practice?.kind === 'deeds' && task.practice.deeds.some(({type}) => type === 'StringStretched');
}

/** Whether what is typed next was turned or only plucked, when the person said so since the last reading. */
export function saidToBe({story}: Bench): 'turned' | 'plucked' | undefined {
	const value = choiceAfter(story, readingIsChoice, lastOf(story, 'PitchRead'));
	return value === 'turned' || value === 'plucked' ? value : undefined;
}

function promptFor(bench: Bench, asked: 'turn' | 'pluck'): 'afterTurning' | 'onlyPlucked' {
	const said = saidToBe(bench) ?? (asked === 'turn' ? 'turned' : 'plucked');
	return said === 'turned' ? 'afterTurning' : 'onlyPlucked';
}

function otherString(bench: Bench): string {
	return saidToBe(bench) === 'turned' ? words.anotherTurned : words.anotherPlucked;
}

function whyOf(bench: Bench, reason: TuningReason): string {
	return bench.blocked && (reason === 'next-in-plan' || reason === 'far-off') ? blockedReason : reasonWords[reason];
}

function isPulledSinceRead({story}: Bench, string: StringNumber): boolean {
	return lastOf(story, 'StringStretched', string) > lastOf(story, 'PitchRead', string);
}

function aimExample(aimCents: number): string {
	return `${aimCents > 0 ? '+' : ''}${Math.round(aimCents)}`;
}
