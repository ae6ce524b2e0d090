import type {Bench} from '../../session/bench.ts';
import {isClawByEarTask, pegsInsteadKey} from '../common/claw-by-ear.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {asItIsKey, isClawLiftTask} from './support-way.ts';
import {clawChoice, clawLater, id, isClawTask, isDone} from './task.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	if (isClawByEarTask(task)) return [pegsInsteadKey, goAnywayKey(id)];
	if (isClawLiftTask(task)) return [asItIsKey, goAnywayKey(id)];
	if (isClawTask(task)) return [laterKey, ...(bench.blocked ? [] : [goAnywayKey(id)])];
	return [
		...guidedKeys(bench, task),
		...(bench.blocked ? blockedKeys(task) : []),
		...(isDone(bench) ? [] : [goAnywayKey(id)]),
	];
}

const laterKey: KeyAction = {
	key: 'j',
	label: words.foreseen.later,
	does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: clawChoice, value: clawLater}]},
};

function blockedKeys(task: Task): readonly KeyAction[] {
	if (task.act?.kind === 'unsupport') return [];
	const deeds = [{type: 'SupportRemoved'}] as const;
	return [{key: 'k', label: words.supportOut, does: {kind: 'deeds', deeds, ask: words.askSupport}}];
}
