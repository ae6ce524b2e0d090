import type {Stage} from '../stage.ts';
import {answer} from './answer.ts';
import {keys} from './keys.ts';
import {Panel} from './panel.tsx';
import {id, placeOf} from './place.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** What the instrument is and is to become, and what that will do to the bridge, before anything is undone. */
export const intake = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone: bench => placeOf(bench).kind === 'change',
	task,
	answer,
	keys,
	Panel,
} as const satisfies Stage;
