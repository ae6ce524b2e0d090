import type {Bench} from '../../session/bench.ts';
import {formatTurns} from '../../units/turns.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {clawEighths, id, isDone} from './task.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	return [
		...guidedKeys(bench, task),
		...(bench.blocked ? blockedKeys(bench, task) : []),
		...(isDone(bench) ? [] : [goAnywayKey(id)]),
	];
}

function blockedKeys(bench: Bench, task: Task): readonly KeyAction[] {
	const turns = clawEighths(bench);
	if (task.act?.kind === 'unsupport') {
		const deeds = [{type: 'ClawTurned', trebleTurns: turns, bassTurns: turns}] as const;
		return turns === 0 ? [] : [{key: 'j', label: words.claw(formatTurns(turns)), does: {kind: 'deeds', deeds}}];
	}
	const deeds = [{type: 'SupportRemoved'}] as const;
	return [{key: 'k', label: words.supportOut, does: {kind: 'deeds', deeds, ask: words.askSupport}}];
}
