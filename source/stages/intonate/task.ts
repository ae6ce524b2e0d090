import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatCentsWords} from '../../units/cents.ts';
import {formatTravel} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {type Choice, choiceTask} from '../common/choices.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {nameOf, stringsNamed} from '../common/rows.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {errorOf, id, statusOf} from './status.ts';
import {type Step, stepOf, type Way, wayChoice} from './step.ts';
import {planLine, travelOf} from './travel.ts';
import {words} from './words.ts';

export function waysFor({strings}: Bench): readonly Choice<Way>[] {
	const {together, togetherNote, single, singleNote} = words.ways;
	return [
		{value: 'together', label: together, note: togetherNote(strings.length)},
		{value: 'single', label: single, note: singleNote(strings.length)},
	];
}

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	const progress = progressOf(bench);
	switch (step.kind) {
		case 'choose': {
			const why = words.ways.why(formatTrimmed(bench.sheet.frettedToleranceCents, 1));
			return choiceTask(wayChoice, waysFor(bench), 'together', {headline: words.ways.headline, why, progress});
		}
		case 'read':
			return readingTask(step, bench, progress);
		case 'slacken':
			return slackenTask(step.rows, bench, progress);
		case 'move':
			return moveTask(step.row, bench, progress);
		case 'tune':
			// The plan may hold that nothing is to be done while a slack string waits; a pluck is never wrong.
			return guidedTask(bench, progress) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
		case 'done':
			return doneTask(bench);
	}
}

function readingTask({row, how, again}: Extract<Step, {kind: 'read'}>, bench: Bench, progress: number): Task {
	const said = words[how];
	const isSecond = how === 'fretted' && isReadAfter(bench.story, row.string, 'fretted', bench.lastAdjustment);
	return {
		headline: isSecond ? words.fretted.second(nameOf(row)) : said.headline(nameOf(row)),
		why: isSecond ? words.fretted.secondWhy : again && how === 'fretted' ? words.fretted.again : said.why,
		how: said.how,
		prompt: said.prompt(nameOf(row)),
		example: said.example,
		string: row.string,
		practice: {kind: 'pluck', string: row.string, how, ...(how === 'fretted' && {fret: 12})},
		progress,
	};
}

function slackenTask(rows: readonly StringRow[], bench: Bench, progress: number): Task {
	const strings = rows.map(({string}) => string);
	const {headline, why, how, prompt, enter: label} = words.slacken;
	const deeds = strings.map(string => ({type: 'StringSlackened', string}) as const);
	return {
		headline: headline(stringsNamed(strings)),
		why,
		how: [...rows.map(row => planLine(row, bench)), ...(rows.length > 1 ? [how] : [])],
		prompt,
		act: {kind: 'slacken', strings},
		...(strings.length === 1 && {string: strings[0]!}),
		cautions: [words.cautions.slack],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}

function moveTask(row: StringRow, bench: Bench, progress: number): Task {
	const {move} = words;
	const {possibleMm} = travelOf(row, bench);
	const travel = formatTravel(possibleMm, bench.sheet.units);
	const way = possibleMm >= 0 ? move.back : move.forward;
	const deeds: readonly Deed[] = [{type: 'SaddleMoved', string: row.string, travelMm: possibleMm}];
	const error = formatCentsWords(errorOf(row, bench)?.mean ?? 0);
	return {
		headline: move.headline(nameOf(row), `${travel}, ${way}`),
		why: move.why(error, formatTrimmed(bench.sheet.frettedToleranceCents, 1)),
		how: [planLine(row, bench), ...move.how],
		prompt: move.prompt(nameOf(row)),
		example: move.example,
		string: row.string,
		cautions: [words.cautions.slack, words.cautions.screw],
		enter: {label: move.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}

function doneTask(bench: Bench): Task {
	const {headline, why, none} = words.done;
	const worst = bench.strings
		.map(row => ({row, error: errorOf(row, bench) ?? {mean: 0, sd: 0}}))
		.reduce((a, b) => (Math.abs(b.error.mean) > Math.abs(a.error.mean) ? b : a));
	const isUnheard = Math.abs(worst.error.mean) <= worst.error.sd;
	const said = [
		why(nameOf(worst.row), formatCentsWords(worst.error.mean)),
		...(isUnheard ? [words.withinTuner] : []),
		...(lastOf(bench.story, 'SaddleMoved') < 0 ? [none] : []),
	];
	return passTask(id, {headline, why: said.join(' ')});
}

/** Strings read count a half, strings good the whole; retuning is part of the last of them. */
function progressOf(bench: Bench): number {
	const weights = {'to-read': 0, 'to-move': 0.4, 'to-verify': 0.7, good: 1} as const;
	const sum = bench.strings.reduce((total, row) => total + weights[statusOf(row, bench)], 0);
	return (sum / bench.strings.length) * (0.8 + 0.19 * tuningShare(bench));
}
