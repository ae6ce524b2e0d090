import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {Panel} from './panel.tsx';
import {id} from './status.ts';
import {stepOf} from './step.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** Every fretted 12th in agreement with its harmonic, the saddle moves computed. */
export const intonate = {
	id,
	title: words.title,
	// New strings of the same kind need no other saddle; who wants to see can open it all the same.
	isNeeded: ({sheet}) => sheet.job !== 'restring',
	isDone: bench => stepOf(bench).kind === 'done',
	task,
	answer,
	keys,
	Panel,
} as const satisfies Stage;
