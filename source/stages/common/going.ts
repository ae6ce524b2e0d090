import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import type {Answer, KeyAction, Task} from '../stage.ts';
import {enterOnly, going as words} from './words.ts';

/** The last task of a stage: nothing left here, Enter goes on. */
export function passTask(stage: string, said: Omit<Task, 'prompt' | 'progress' | 'enter' | 'practice'>): Task {
	const deeds: readonly Deed[] = [{type: 'StagePassed', stage}];
	return {...said, prompt: words.on, progress: 1, enter: {label: words.on, deeds}, practice: {kind: 'deeds', deeds}};
}

/** One key leaves a stage that is not finished, after a question. */
export function goAnywayKey(stage: string): KeyAction {
	return {
		key: '>',
		label: words.anyway,
		does: {kind: 'deeds', deeds: [{type: 'StagePassed', stage}], ask: words.ask},
	};
}

/** A task where Enter says it all: what was typed is read back, never lost. */
export function refuseTyping(text: string, task: Task): Answer {
	return {kind: 'refused', said: enterOnly(text.trim(), task.enter?.label ?? words.on)};
}

export function isPassed({passedStages, reopenedStage}: Bench, stage: string): boolean {
	return passedStages.includes(stage) && reopenedStage !== stage;
}
