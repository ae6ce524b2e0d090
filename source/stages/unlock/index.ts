import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {id, stepOf, task} from './task.ts';
import {words} from './words.ts';

/** Clamps off, fine tuners centred, and strings changed if they are to be changed. */
export const unlock = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone: bench => stepOf(bench).kind === 'done',
	task,
	answer,
	keys,
} as const satisfies Stage;
