import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {id, stepOf} from './step.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const {kind} = stepOf(bench);
	const open: KeyAction = {
		key: 'k',
		label: words.openAgain,
		does: {kind: 'deeds', deeds: [{type: 'NutOpened'}], ask: words.askOpen},
	};
	return [
		...(kind === 'tune' ? guidedKeys(bench, task) : []),
		...(bench.nut === 'locked' ? [open] : []),
		...(kind === 'done' ? [] : [goAnywayKey(id)]),
	];
}
