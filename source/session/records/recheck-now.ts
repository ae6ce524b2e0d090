import type {Learned} from '../../estimation/memory.ts';
import type {Fact, Story} from '../facts.ts';
import {expectedOf, type Recheck, recheckOf} from './recheck.ts';

/** A re-check as far as it has come. */
export interface RecheckNow {
	/** What yesterday expects, and what was read. */
	readonly strings: Recheck['strings'];
	/** What the readings tell, from the first on. */
	readonly found?: Recheck;
}

/**
 * The last re-check of a story, from when a day had passed to the first work
 * after it: what was turned then is no longer as yesterday left it.
 *
 * @returns Undefined when no day was let pass.
 */
export function recheckNow(story: Story, learned?: Learned): RecheckNow | undefined {
	const at = story.findLastIndex(({type}) => type === 'DayPassed');
	if (at < 0) return undefined;
	const yesterday = story.slice(0, at);
	const today = story.slice(at + 1);
	const worked = today.findIndex(({type}) => !passive.includes(type));
	const reads = (worked < 0 ? today : today.slice(0, worked)).flatMap(fact =>
		fact.type === 'PitchRead' && fact.how === 'open' ? [{string: fact.string, cents: fact.cents}] : [],
	);
	const found = recheckOf(yesterday, reads, learned);
	return found ? {strings: found.strings, found} : {strings: expectedOf(yesterday, learned)};
}

/** Facts that leave every setting where it was. */
const passive: readonly Fact['type'][] = [
	'PitchRead',
	'PlateMeasured',
	'SaddleMeasured',
	'StagePassed',
	'StageReopened',
	'ItemTicked',
	'WayChosen',
	'NoteWritten',
	'SheetFilled',
];
