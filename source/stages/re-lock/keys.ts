import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import type {StringNumber} from '../../music/string-number.ts';
import {takeChoice} from '../common/guided.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {id, stepOf} from './step.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	const {kind} = step;
	const open: KeyAction = {
		key: 'k',
		label: words.openAgain,
		does: {kind: 'deeds', deeds: [{type: 'NutOpened'}], ask: words.askOpen},
	};
	return [
		...(step.kind === 'unlock' ? [tryKey(step.out.string)] : []),
		...(kind === 'tune' ? guidedKeys(bench, task) : []),
		...(bench.nut === 'locked' ? [open] : []),
		...(kind === 'done' ? [] : [goAnywayKey(id)]),
	];
}

function tryKey(string: StringNumber): KeyAction {
	const deeds = [{type: 'WayChosen', choice: takeChoice, value: String(string)}] as const;
	return {key: 'j', label: words.unlock.tryIt, does: {kind: 'deeds', deeds}};
}
