import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {choiceAfter, reopenedAt} from '../common/story.ts';
import {type Field, fieldOf} from './fields.ts';

export const id = 'intake';

/** The few questions that everybody is asked, in order. */
export const quick = ['count', 'set', 'tuning', 'scale'] as const;

/** Where intake stands: a quick question, a line being changed, the menu, the list to look through, or what the work will do. */
export type Place =
	| {readonly kind: 'quick'; readonly field: (typeof quick)[number]}
	| {readonly kind: 'ask'; readonly field: Field}
	| {readonly kind: 'menu' | 'look' | 'change'};

/** Stored as text in the story, so that taking back goes back through the questions too. */
type PlaceName = (typeof quick)[number] | 'menu' | 'look' | 'change' | `ask ${string}`;

/** Reopened, intake opens at the menu: nobody is asked everything twice. */
export function placeOf({story, reopenedStage}: Bench): Place {
	const name = choiceAfter(story, id, reopenedAt(story, id)) ?? (reopenedStage === id ? 'menu' : 'count');
	if (name.startsWith('ask ')) return {kind: 'ask', field: fieldOf(name.slice('ask '.length))};
	if (name === 'menu' || name === 'look' || name === 'change') return {kind: name};
	const field = quick.find(field => field === name);
	return field ? {kind: 'quick', field} : {kind: 'menu'};
}

export function goTo(name: PlaceName): Deed {
	return {type: 'WayChosen', choice: id, value: name};
}

export function afterQuick(field: (typeof quick)[number]): PlaceName {
	return quick[quick.indexOf(field) + 1] ?? 'menu';
}

/** What was on before is asked as soon as the job is a change, one question after the other. */
export function afterAsk({id}: Field, becomesChange: boolean): PlaceName {
	if (becomesChange) return 'ask old-set';
	return id === 'old-set' ? 'ask old-tuning' : 'menu';
}
