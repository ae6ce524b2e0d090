import type {Bench} from '../../session/bench.ts';
import {answerAllStrings} from '../common/all-strings.ts';
import {answerChecklist} from '../common/checklist.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided, isAboutString} from '../common/pitch-answer.ts';
import type {Answer, Task} from '../stage.ts';
import {readiness, stepOf} from './step.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	switch (stepOf(bench).kind) {
		case 'ready':
			return answerChecklist(text, readiness(bench), bench);
		case 'read':
			return answerAllStrings(text, 'open', bench, extra?.meant) ?? answerGuided(text, task, bench, extra?.meant);
		case 'tune':
			return answerGuided(text, task, bench, extra?.meant);
		case 'clamp':
		case 'unlock':
			return refuseTyping(text, task);
		case 'done':
			return isAboutString(text)
				? answerGuided(text, {...task, string: 1}, bench, extra?.meant)
				: refuseTyping(text, task);
	}
}
