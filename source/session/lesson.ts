import {type Learned, learnedFrom} from '../estimation/memory.ts';
import {armOf} from '../planning/claw-sense.ts';
import {beliefOf} from './belief-of.ts';
import {clawSenseOf} from './claw-sense.ts';
import {stateOf} from './evolve.ts';
import type {Story} from './facts.ts';
import {clampLesson} from './locking.ts';

/**
 * What a set-up has to say to the instrument's next one.
 *
 * @throws {RangeError} If the story has no filled sheet.
 */
export function lessonOf(story: Story, learned?: Learned): Learned {
	const {sheet} = stateOf(story);
	if (!sheet) throw new RangeError('lessonOf: expected story to hold a filled sheet, got none');
	const clawArm = armOf(clawSenseOf(story, sheet, learned).sense);
	const clamp = clampLesson(story, sheet, learned);
	return {...learnedFrom(beliefOf(story, sheet, learned)), clawArm, ...(clamp && {clamp})};
}
