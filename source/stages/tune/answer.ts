import type {Bench} from '../../session/bench.ts';
import {readClawTurns} from '../../session/entry/measures.ts';
import {answerClawByEar, isClawByEarTask} from '../common/claw-by-ear.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided, isAboutString} from '../common/pitch-answer.ts';
import type {Answer, Task} from '../stage.ts';
import {answerWay, clawTurnDue, isClawLiftTask, isWayOpen} from './support-way.ts';
import {isClawTask, isDone} from './task.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	if (isWayOpen(bench)) return answerWay(text, bench);
	const due = isClawByEarTask(task) ? clawTurnDue(bench) : undefined;
	if (due) return answerClawByEar(text, due, bench, extra?.meant);
	if (isClawTask(task) && !isClawLiftTask(task)) {
		return answerOf(readClawTurns(text), turns => [{type: 'ClawTurned', ...turns}], extra?.meant);
	}
	// When nothing is asked for any more, a string and what it shows is still welcome.
	if (task.string === undefined && !isAboutString(text)) return refuseTyping(text, task);
	return answerGuided(text, isDone(bench) ? {...task, string: 1} : task, bench, extra?.meant);
}
