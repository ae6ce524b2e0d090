import type {Bench} from '../../session/bench.ts';
import {sheetText} from '../../session/report/as-text.ts';
import {setUpSheet as sheetOf} from '../../session/report/set-up-sheet.ts';
import {passTask, refuseTyping} from '../common/going.ts';
import type {Stage, Task} from '../stage.ts';
import {words} from './words.ts';

const id = 'set-up-sheet';

/** The record of what was done, for the owner and for the next time. */
export const setUpSheet = {
	id,
	title: words.title,
	isNeeded: () => true,
	isDone: () => true,
	task,
	answer: refuseTyping,
	keys: () => [
		{key: 'v', label: words.view, does: {kind: 'shell', name: 'sheet'}},
		{key: 'w', label: words.save, does: {kind: 'shell', name: 'save-sheet'}},
	],
} as const satisfies Stage;

function task(bench: Bench): Task {
	const {headline, why, how, prompt, enter: label} = words;
	const pass = passTask(id, {headline, why, how: [...how, ...sheetText(sheetOf(bench))]});
	return {...pass, prompt, tableRests: true, enter: {...pass.enter!, label}};
}
