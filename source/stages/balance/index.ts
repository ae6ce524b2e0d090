import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {Panel} from './panel.tsx';
import {id, stepOf} from './step.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** The plate as wished with all at pitch: claw turns and tuning as one plan. */
export const balance = {
	id,
	title: words.title,
	isNeeded: ({sheet}) => sheet.job !== 'intonation',
	isDone: bench => stepOf(bench).kind === 'done',
	task,
	answer,
	keys,
	Panel,
} as const satisfies Stage;
