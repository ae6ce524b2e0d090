import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {id, isDone, task} from './task.ts';
import {words} from './words.ts';

/** Every string at pitch, each set with what the others will still do to it in mind. */
export const tune = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone,
	task,
	answer,
	keys,
} as const satisfies Stage;
