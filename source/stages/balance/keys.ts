import type {Bench} from '../../session/bench.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {onSupportInstead, tuningWayOf} from '../common/tuning-way.ts';
import {clawAnyway, id, measureAgain, plateChoice, type Step, stepOf} from './step.ts';
import {words} from './words.ts';

/** Turns of the claw from which a support is worth its while. Judgement. */
const ledTurns = 3 / 8;

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	const {kind} = step;
	const again = choiceKey('m', words.measureAgain, measureAgain);
	if (kind === 'done') return [again];
	return [
		...(kind === 'tune' ? guidedKeys(bench, task) : []),
		...(kind === 'springs' || kind === 'cannot' ? [choiceKey('j', words.springs.clawAnyway, clawAnyway)] : []),
		...(isSupportWorth(step, bench) ? [supportKey] : []),
		...(kind === 'measure' ? [] : [again]),
		goAnywayKey(id),
	];
}

/** A bold turn of a claw is as well led by ear, from a support at the wished height. */
function isSupportWorth(step: Step, bench: Bench): boolean {
	if (step.kind !== 'claw' || bench.nut === 'locked' || bench.blocked || tuningWayOf(bench) === 'support') return false;
	return Math.abs(step.turns.trebleTurns + step.turns.bassTurns) / 2 >= ledTurns;
}

const supportKey: KeyAction = {
	key: 'w',
	label: words.onSupport,
	does: {kind: 'deeds', deeds: onSupportInstead, ask: words.askSupport},
};

function choiceKey(key: string, label: string, value: string): KeyAction {
	return {key, label, does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: plateChoice, value}]}};
}
