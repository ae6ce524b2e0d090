import type {Bench, StringRow} from '../../session/bench.ts';
import {answerChoice} from '../common/choices.ts';
import {refuseTyping} from '../common/going.ts';
import {answerPitch} from '../common/pitch-answer.ts';
import {stringsIn} from '../common/rows.ts';
import type {Answer, Task} from '../stage.ts';
import {fitted, removed, restring, stepOf, ways} from './task.ts';
import {words} from './words.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const step = stepOf(bench);
	switch (step.kind) {
		case 'choose':
			return answerChoice(text, restring, ways);
		case 'raise': {
			const {string} = step.row;
			// Near is near enough here, so where it was to stop is no expectation.
			return answerPitch(text, {string, how: 'open', toCents: 0}, bench, extra?.meant);
		}
		case 'remove-all':
		case 'fit-all': {
			const strings = stringsIn(text, step.rows);
			if (!strings) return {kind: 'refused', said: words.notStrings(text.trim(), numbersOf(step.rows))};
			return {kind: 'deeds', deeds: step.kind === 'fit-all' ? fitted(strings) : removed(strings)};
		}
		default:
			return refuseTyping(text, task);
	}
}

function numbersOf(rows: readonly StringRow[]): string {
	return rows.map(({string}) => string).join(' ');
}
