import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {id} from './status.ts';
import {stepOf, wayChoice, wayOf} from './step.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	if (step.kind === 'done') return [];
	const way = wayOf(bench);
	const other: Deed = {type: 'WayChosen', choice: wayChoice, value: 'ask again'};
	const strings = step.kind === 'slacken' ? step.rows : step.kind === 'move' || step.kind === 'learn' ? [step.row] : [];
	const asItIs = strings.map(({string}) => ({type: 'ItemTicked', item: words.accepted(string), done: true}) as const);
	return [
		...(step.kind === 'tune' ? guidedKeys(bench, task) : []),
		...(asItIs.length > 0 ? [deedsKey('i', words.asItIs, asItIs)] : []),
		...(way ? [deedsKey('z', words.otherWay, [other])] : []),
		goAnywayKey(id),
	];
}

function deedsKey(key: string, label: string, deeds: readonly Deed[]): KeyAction {
	return {key, label, does: {kind: 'deeds', deeds}};
}
