import type {Bench} from '../../session/bench.ts';
import {answerAllStrings} from '../common/all-strings.ts';
import {goAnywayKey} from '../common/going.ts';
import {guidedKeys} from '../common/guided-keys.ts';
import {answerGuided} from '../common/pitch-answer.ts';
import {lastOf} from '../common/story.ts';
import type {Answer, KeyAction, Stage, Task} from '../stage.ts';
import {id, stepOf} from './step.ts';
import {task} from './task.ts';
import {words} from './words.ts';

/** A day later: what the set-up left is read again, and what changed is told to be settling or a fault. */
export const recheck = {
	id,
	title: words.title,
	isNeeded: bench => lastOf(bench.story, 'DayPassed') >= 0,
	isDone: bench => stepOf(bench).kind === 'told',
	task,
	answer,
	keys,
} as const satisfies Stage;

function answer(text: string, now: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const meant = extra?.meant ?? false;
	if (stepOf(bench).kind !== 'tune') {
		const all = answerAllStrings(text, 'open', bench, meant);
		if (all) return all;
	}
	return answerGuided(text, now, bench, meant);
}

function keys(bench: Bench, now: Task): readonly KeyAction[] {
	const {kind} = stepOf(bench);
	return kind === 'told' && now.progress === 1
		? []
		: [...(kind === 'tune' ? guidedKeys(bench, now) : []), goAnywayKey(id)];
}
