import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {choiceAfter, lastOf} from './story.ts';

/** How a guitar that is far off is brought to pitch and level. */
export type TuningWay = 'support' | 'floating';

/** Name of the choice in the story. */
export const tuningWayChoice = 'tuning';

/** The way chosen since the nut was opened, if any. */
export function tuningWayOf({story}: Bench): TuningWay | undefined {
	const chosen = choiceAfter(story, tuningWayChoice, lastOf(story, 'NutOpened'));
	return chosen === 'support' || chosen === 'floating' ? chosen : undefined;
}

/** Facts that lead from a later stage to tuning on a level support. */
export const onSupportInstead: readonly Deed[] = [
	{type: 'WayChosen', choice: tuningWayChoice, value: 'support' satisfies TuningWay},
	{type: 'StageReopened', stage: 'tune'},
];
