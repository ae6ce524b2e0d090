import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {onSupportInstead} from '../common/tuning-way.ts';
import {clawAnyway, id, measureAgain, plateChoice, stepOf} from './step.ts';
import {isSupportWorth} from './way-task.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	const {kind} = step;
	const again = choiceKey('m', words.measureAgain, measureAgain);
	if (kind === 'done') return [again];
	return [
		...(kind === 'tune' ? guidedKeys(bench, task) : []),
		...(kind === 'springs' || kind === 'cannot' ? [choiceKey('j', words.springs.clawAnyway, clawAnyway)] : []),
		...(step.kind === 'claw' && isSupportWorth(step.turns, bench) ? [supportKey] : []),
		...(kind === 'measure' ? [] : [again]),
		goAnywayKey(id),
	];
}

const supportKey: KeyAction = {
	key: 'w',
	label: words.onSupport,
	does: {kind: 'deeds', deeds: onSupportInstead, ask: words.askSupport},
};

function choiceKey(key: string, label: string, value: string): KeyAction {
	return {key, label, does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: plateChoice, value}]}};
}
