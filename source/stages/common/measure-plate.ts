import type {Bench} from '../../session/bench.ts';
import {formatTypedLength} from '../../units/length.ts';
import type {Task} from '../stage.ts';
import {plateMeasure} from './words.ts';

/** The tail's height is asked for; how to measure it is said the same way wherever it is. */
export function measurePlateTask(
	{sheet}: Bench,
	{headline, why, progress}: Pick<Task, 'headline' | 'why' | 'progress'>,
): Task {
	return {
		headline,
		why,
		how: plateMeasure.how(formatTypedLength(sheet.tailArmMm, sheet.units)),
		prompt: plateMeasure.prompt,
		example: plateMeasure.example,
		tableRests: true,
		practice: {kind: 'measure-plate'},
		progress,
	};
}
