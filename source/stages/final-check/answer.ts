import type {Bench} from '../../session/bench.ts';
import {answerAllStrings} from '../common/all-strings.ts';
import {answerChecklist} from '../common/checklist.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided, answerPitch} from '../common/pitch-answer.ts';
import {answerPlate} from '../common/plate-answer.ts';
import type {Answer, Task} from '../stage.ts';
import {lookItems, stepOf} from './step.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const step = stepOf(bench);
	const meant = extra?.meant ?? false;
	switch (step.kind) {
		case 'look':
			return answerChecklist(text, lookItems, bench);
		case 'open':
		case 'after-motion':
			return answerAllStrings(text, 'open', bench, meant) ?? answerGuided(text, task, bench, meant);
		case 'fretted': {
			const {string} = step.rows[0]!;
			return (
				answerAllStrings(text, 'fretted', bench, meant) ?? answerPitch(text, {string, how: 'fretted'}, bench, meant)
			);
		}
		case 'plate':
			return answerPlate(text, bench, meant);
		case 'tune':
			return answerGuided(text, task, bench, meant);
		case 'motion':
		case 'done':
			return refuseTyping(text, task);
	}
}
