import type {Bench, StringRow} from '../../session/bench.ts';
import {readSaddlePosition, readSaddleTravel} from '../../session/entry/measures.ts';
import {answerChoice} from '../common/choices.ts';
import {answerClawByEar} from '../common/claw-by-ear.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided, answerPitch} from '../common/pitch-answer.ts';
import {stringsIn} from '../common/rows.ts';
import type {Answer, Task} from '../stage.ts';
import {answerFret} from './fret-task.ts';
import {learningOf, planned, travelMmOf} from './status.ts';
import {stepOf, wayChoice} from './step.ts';
import {movedDeeds, waysFor} from './task.ts';
import {travelShown} from './travel.ts';
import {answerWish} from './wish-task.ts';
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
		case 'move':
			return answerMove(text, step.row, bench, meant);
		case 'frets':
			return answerFret(text, step.row, bench, meant);
		case 'wishes':
			return answerWish(text, bench, meant);
		case 'bring-up':
		case 'tune':
		case 'probe':
			return answerGuided(text, task, bench, meant);
		case 'claw':
			return answerClawByEar(text, step.due, bench, meant);
		case 'support':
		case 'unsupport':
		case 'done':
			return refuseTyping(text, task);
	}
}

function answerLearning(text: string, row: StringRow, bench: Bench, meant: boolean): Answer {
	const {string} = row;
	const learning = learningOf(row, bench);
	if (learning.kind === 'sound') {
		const answer = answerPitch(text, {string, how: learning.how}, bench, meant);
		return planned(row).kind === 'check' ? withoutSurprise(answer) : answer;
	}
	return answerOf(
		readSaddlePosition(text, bench.sheet.units),
		positionMm => [{type: 'SaddleMeasured', string, positionMm}],
		meant,
	);
}

/** A check is there to read otherwise than before; only what cannot be this note is still asked about, cents. */
const checkedCents = 25;

function withoutSurprise(answer: Answer): Answer {
	if (answer.kind !== 'question') return answer;
	const deeds = answer.deedsIfMeant;
	const isThisNote = deeds.every(deed => deed.type === 'PitchRead' && Math.abs(deed.cents) <= checkedCents);
	return isThisNote ? {kind: 'deeds', deeds} : answer;
}

/** Less than this either way is no direction, mm. */
const noDirectionMm = 0.2;

/** What was really moved; the other way than asked for is questioned, for it doubles the error. */
function answerMove(text: string, row: StringRow, bench: Bench, meant: boolean): Answer {
	const entry = readSaddleTravel(text, bench.sheet.units);
	const askedMm = travelMmOf(row);
	const isOpposite =
		entry.kind !== 'refused' &&
		Math.min(Math.abs(entry.value), Math.abs(askedMm)) > noDirectionMm &&
		Math.sign(entry.value) !== Math.sign(askedMm);
	if (!isOpposite || meant) return answerOf(entry, travelMm => movedDeeds(row, travelMm), meant);
	return {
		kind: 'question',
		said: words.opposite(travelShown(askedMm, bench), travelShown(entry.value, bench)),
		deedsIfMeant: movedDeeds(row, entry.value),
	};
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
