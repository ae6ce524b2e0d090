import type {Bench, StringRow} from '../../session/bench.ts';
import {readSaddlePosition, readSaddleTravel} from '../../session/entry/measures.ts';
import {answerChoice} from '../common/choices.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided, answerPitch} from '../common/pitch-answer.ts';
import {stringsIn} from '../common/rows.ts';
import type {Answer, Task} from '../stage.ts';
import {learningOf} from './status.ts';
import {stepOf, wayChoice} from './step.ts';
import {movedDeeds, waysFor} from './task.ts';
import {words} from './words.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const step = stepOf(bench);
	const meant = extra?.meant ?? false;
	switch (step.kind) {
		case 'choose':
			return answerChoice(text, wayChoice, waysFor(bench));
		case 'learn':
			return answerLearning(text, step.row, bench, meant);
		case 'slacken':
			return answerSlacken(text, step.rows);
		case 'move': {
			const {row} = step;
			return answerOf(readSaddleTravel(text, bench.sheet.units), travelMm => movedDeeds(row, travelMm), meant);
		}
		case 'tune':
		case 'probe':
			return answerGuided(text, task, bench, meant);
		case 'support':
		case 'unsupport':
		case 'done':
			return refuseTyping(text, task);
	}
}

function answerLearning(text: string, row: StringRow, bench: Bench, meant: boolean): Answer {
	const {string} = row;
	const learning = learningOf(row, bench);
	if (learning.kind === 'sound') return answerPitch(text, {string, how: learning.how}, bench, meant);
	return answerOf(
		readSaddlePosition(text, bench.sheet.units),
		positionMm => [{type: 'SaddleMeasured', string, positionMm}],
		meant,
	);
}

/** Some of them: those are slackened, the rest stay as they are. */
function answerSlacken(text: string, rows: readonly StringRow[]): Answer {
	const strings = rows.map(({string}) => string);
	const chosen = stringsIn(text, rows);
	if (!chosen) return {kind: 'refused', said: words.notStrings(text.trim(), strings.join(' '))};
	const rest = strings.filter(string => !chosen.includes(string));
	return {
		kind: 'deeds',
		deeds: [
			...rest.map(string => ({type: 'ItemTicked', item: words.accepted(string), done: true}) as const),
			...chosen.map(string => ({type: 'StringSlackened', string}) as const),
		],
	};
}
