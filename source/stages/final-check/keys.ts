import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {id, leftOut, motionChoice, stepOf} from './step.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	if (step.kind === 'done') return [];
	const skip = step.kind === 'motion' ? [leaveOutKey(motionChoice(step.motion))] : [];
	return [...(step.kind === 'tune' ? guidedKeys(bench, task) : []), ...skip, goAnywayKey(id)];
}

function leaveOutKey(choice: string): KeyAction {
	return {key: 'x', label: words.leaveOut, does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice, value: leftOut}]}};
}
