import type {Bench} from '../../session/bench.ts';
import {sheetLimits} from '../../session/limits.ts';
import {rangeOf} from '../../session/entry/quantity.ts';
import {readClawTurns, readWhole} from '../../session/entry/measures.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided} from '../common/pitch-answer.ts';
import {answerPlate} from '../common/plate-answer.ts';
import {readSpringArm} from '../common/spring-arm-entry.ts';
import type {Answer, Task} from '../stage.ts';
import {stepOf} from './step.ts';
import {springDeeds} from './springs-task.ts';
import {answerWay} from './way-task.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const meant = extra?.meant ?? false;
	switch (stepOf(bench).kind) {
		case 'measure':
			return answerPlate(text, bench, meant);
		case 'tune':
			return answerGuided(text, task, bench, meant);
		case 'spring-arm':
			return answerOf(
				readSpringArm(text, bench.sheet.units),
				springArmMm => [{type: 'SheetFilled', sheet: {...bench.sheet, springArmMm}}],
				meant,
			);
		case 'way':
			return answerWay(text, bench);
		case 'claw':
		case 'cannot':
			return answerOf(readClawTurns(text), turns => [{type: 'ClawTurned', ...turns}], meant);
		case 'springs':
			return answerOf(
				readWhole(text, 'a number of springs', rangeOf(sheetLimits.springs), bench.springs),
				springs => springDeeds(bench, springs),
				meant,
			);
		case 'done':
			return refuseTyping(text, task);
	}
}
