import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {id, stepOf} from './step.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** Everything read once more, then the arm: what it leaves behind tells whether the bridge comes home. */
export const finalCheck = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone: bench => stepOf(bench).kind === 'done',
	task,
	answer,
	keys,
} as const satisfies Stage;
