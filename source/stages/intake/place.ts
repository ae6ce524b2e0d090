import type {Bench} from '../../session/bench.ts';
import type {Deed, Story} from '../../session/facts.ts';
import {choiceAfter, lastOf, reopenedAt} from '../common/story.ts';
import type {InstrumentSheet} from '../../session/sheet.ts';
import {type Field, fieldOf} from './fields.ts';
import {type TestStep, testStepOf} from './test-turn.ts';

export const id = 'intake';

/** The few questions that everybody is asked, in order. */
export const quick = ['count', 'set', 'tuning', 'scale'] as const;

/** Where intake stands: a quick question, a line being changed, the menu, the list to look through, or what the work will do. */
export type Place =
	| {readonly kind: 'quick'; readonly field: (typeof quick)[number]}
	| {readonly kind: 'ask'; readonly field: Field}
	/** The plate is measured before anything is undone. */
	| {readonly kind: 'menu' | 'look' | 'before' | 'change'}
	/** The claw springs are measured, for surer turns. */
	| {readonly kind: 'springs'}
	| {readonly kind: 'test'; readonly step: TestStep};

/** Stored as text in the story, so that taking back goes back through the questions too. */
type PlaceName = (typeof quick)[number] | 'menu' | 'look' | 'before' | 'change' | 'springs' | 'test' | `ask ${string}`;

/** Reopened, intake opens at the menu: nobody is asked everything twice. */
export function placeOf(bench: Bench): Place {
	const {story, reopenedStage} = bench;
	const name = choiceAfter(story, id, reopenedAt(story, id)) ?? (reopenedStage === id ? 'menu' : 'count');
	if (name.startsWith('ask ')) return {kind: 'ask', field: fieldOf(name.slice('ask '.length))};
	if (name === 'before') return {kind: lastOf(story, 'PlateMeasured') >= 0 ? 'change' : 'before'};
	if (name === 'springs') return {kind: isFilledSince(story, name) ? 'change' : name};
	if (name === 'test') {
		const begun = story.findLastIndex(fact => fact.type === 'WayChosen' && fact.choice === id && fact.value === name);
		const step = testStepOf(bench, begun);
		return step ? {kind: 'test', step} : {kind: 'change'};
	}
	if (name === 'menu' || name === 'look' || name === 'change') return {kind: name};
	const field = quick.find(field => field === name);
	return field ? {kind: 'quick', field} : {kind: 'menu'};
}

/** The hands of the practice guitar fill the sheet in and choose nothing. */
function isFilledSince(story: Story, name: PlaceName): boolean {
	const chosen = story.findLastIndex(fact => fact.type === 'WayChosen' && fact.choice === id && fact.value === name);
	return lastOf(story, 'SheetFilled') > chosen;
}

export function goTo(name: PlaceName): Deed {
	return {type: 'WayChosen', choice: id, value: name};
}

/** A change is foreseen from how the plate stands before anything is undone. */
export function afterLook({before}: InstrumentSheet): PlaceName {
	return before ? 'before' : 'change';
}

export function afterQuick(field: (typeof quick)[number]): PlaceName {
	return quick[quick.indexOf(field) + 1] ?? 'menu';
}

/** What was on before is asked as soon as the job is a change, one question after the other. */
export function afterAsk({id}: Field, becomesChange: boolean): PlaceName {
	if (becomesChange) return 'ask old-set';
	return id === 'old-set' ? 'ask old-tuning' : 'menu';
}
