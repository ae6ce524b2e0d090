import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {pegsInsteadKey} from '../common/claw-by-ear.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import type {KeyAction, Task} from '../stage.ts';
import {canReadFrets, fretsAside, wishesAside} from './aside.ts';
import {id} from './status.ts';
import {holdOf, type Step, stepOf, wayChoice, wayOf} from './step.ts';
import {words} from './words.ts';

export function keys(bench: Bench, task: Task): readonly KeyAction[] {
	const step = stepOf(bench);
	if (step.kind === 'wishes') return [];
	const row = step.kind === 'frets' ? undefined : rowFor(step, task, bench);
	const beside = [
		...(row ? [deedsKey('m', words.frets.key, [fretsAside(row.string)])] : []),
		...(step.kind === 'frets' ? [] : [deedsKey('w', words.wishes.key, [wishesAside])]),
	];
	if (step.kind === 'done' || step.kind === 'frets') return beside;
	const way = wayOf(bench);
	const other: Deed = {type: 'WayChosen', choice: wayChoice, value: 'ask again'};
	const strings = step.kind === 'slacken' ? step.rows : step.kind === 'move' || step.kind === 'learn' ? [step.row] : [];
	const asItIs = strings.map(({string}) => ({type: 'ItemTicked', item: words.accepted(string), done: true}) as const);
	const hold = step.kind === 'slacken' && bench.blocked ? holdOf(bench) : undefined;
	return [
		...(hold === 'lifted' || hold === 'let-down' ? [deedsKey('j', words.supportChanged, changed)] : []),
		...(step.kind === 'tune' || step.kind === 'bring-up' ? guidedKeys(bench, task) : []),
		...(step.kind === 'claw' ? [pegsInsteadKey] : []),
		...(asItIs.length > 0 ? [deedsKey('i', words.asItIs, asItIs)] : []),
		...beside,
		...(way ? [deedsKey('z', words.otherWay, [other])] : []),
		goAnywayKey(id),
	];
}

/** Out, made thinner or thicker, and in again. */
const changed = [{type: 'SupportRemoved'}, {type: 'SupportPlaced'}] as const satisfies readonly Deed[];

/** The string whose frets the key would go over: the one asked for, if it sounds. */
function rowFor(step: Step, task: Task, bench: Bench): StringRow | undefined {
	if (step.kind !== 'learn' && step.kind !== 'done' && step.kind !== 'choose') return undefined;
	const row = bench.strings.find(({string}) => string === (task.string ?? 1));
	return row && canReadFrets(row, bench) ? row : undefined;
}

function deedsKey(key: string, label: string, deeds: readonly Deed[]): KeyAction {
	return {key, label, does: {kind: 'deeds', deeds}};
}
