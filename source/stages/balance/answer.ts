import type {Bench} from '../../session/bench.ts';
import {readAngle, readClawTurns, readLength, readTailHeight, readWhole} from '../../session/entry/measures.ts';
import type {Deed} from '../../session/facts.ts';
import {radiansFromDegrees} from '../../units/convert.ts';
import {formatTrimmed} from '../../units/number.ts';
import {answerOf} from '../common/entry-answer.ts';
import {refuseTyping} from '../common/going.ts';
import {answerGuided} from '../common/pitch-answer.ts';
import type {Answer, Task} from '../stage.ts';
import {stepOf} from './step.ts';
import {springDeeds} from './task.ts';

export function answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer {
	const meant = extra?.meant ?? false;
	switch (stepOf(bench).kind) {
		case 'measure':
			return answerPlate(text, bench, meant);
		case 'tune':
			return answerGuided(text, task, bench, meant);
		case 'claw':
			return answerOf(readClawTurns(text), turns => [{type: 'ClawTurned', ...turns}], meant);
		case 'springs':
			return answerOf(
				readWhole(text, 'a number of springs', [1, 6], bench.springs),
				springs => springDeeds(bench, springs),
				meant,
			);
		case 'done':
			return refuseTyping(text, task);
	}
}

/** A height, an angle, or two gaps with the one at the posts first. */
function answerPlate(text: string, {sheet}: Bench, meant: boolean): Answer {
	const measured = (tailMm: number, entered: string): readonly Deed[] => [{type: 'PlateMeasured', tailMm, entered}];
	if (/deg|°/i.test(text)) {
		return answerOf(
			readAngle(text),
			(degrees, entered) => measured(sheet.tailArmMm * Math.sin(radiansFromDegrees(degrees)), entered),
			meant,
		);
	}
	const [, front, tail] = /^(.+?)(?:\s+\/\s+|\s*;\s*)(.+)$/.exec(text.trim()) ?? [];
	if (front === undefined || tail === undefined) return answerOf(readTailHeight(text, sheet.units), measured, meant);
	const gap = {what: 'a gap', range: [0, 40], usual: [1, 25], exampleMm: 8} as const;
	const [posts, edge] = [readLength(front, sheet.units, gap), readLength(tail, sheet.units, gap)];
	if (posts.kind === 'refused') return answerOf(posts, () => []);
	if (edge.kind === 'refused') return answerOf(edge, () => []);
	// Judged as the height that they make, so that a slip in either shows.
	const height = readTailHeight(`${formatTrimmed(edge.value - posts.value, 3)} mm${meant ? '!' : ''}`, sheet.units);
	return answerOf(height, tailMm => measured(tailMm, text.trim()), meant);
}
