import type {Bench} from '../../session/bench.ts';
import type {KeyAction, Task} from '../stage.ts';
import {isStretchTask, readingIsChoice, saidToBe} from './guided.ts';
import {guided as words} from './words.ts';

/** One key says whether what is typed next was turned or only plucked, the other way than it stands. */
export function guidedKeys(bench: Bench, task: Task): readonly KeyAction[] {
	if (task.string === undefined || isStretchTask(task)) return [];
	const turned = (saidToBe(bench) ?? (task.act?.kind === 'turn' ? 'turned' : 'plucked')) === 'turned';
	const value = turned ? 'plucked' : 'turned';
	const label = turned ? words.toggleToPlucked : words.toggleToTurned;
	return [{key: 't', label, does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: readingIsChoice, value}]}}];
}
