import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {id, stepOf} from './step.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** Clamps on, and what they shifted taken back with the fine tuners alone. */
export const relock = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone: bench => stepOf(bench).kind === 'done',
	task,
	answer,
	keys,
} as const satisfies Stage;
