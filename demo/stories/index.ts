import type {DemoStory} from '../story.ts';
import {firstRestring} from './first-restring.ts';
import {gaugeAndTuningChange} from './gauge-and-tuning-change.ts';
import {intonationOnly} from './intonation-only.ts';
import {sevenString} from './seven-string.ts';

/** Every story, in the order in which they are listed. */
export const stories: readonly DemoStory[] = [firstRestring, gaugeAndTuningChange, intonationOnly, sevenString];
