import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import type {Answer, Task} from '../stage.ts';
import {checklist as words} from './words.ts';

/** One line of a list to be looked through before going on. */
export interface CheckItem {
	/** Stored as ticked or not; starts with the stage's id. */
	readonly id: string;
	readonly text: string;
	/** Seen by the program itself; the person's tick then counts for nothing. */
	readonly seen?: {readonly ok: boolean; readonly reason: string};
}

export function isMet(item: CheckItem, {ticked}: Bench): boolean {
	return item.seen ? item.seen.ok : ticked[item.id] === true;
}

/** What stands ticked, as lines: `[x] 2 saddle screws tight`. */
export function checklistLines(items: readonly CheckItem[], bench: Bench): readonly string[] {
	return items.map((item, index) => {
		const box = isMet(item, bench) ? '[x]' : '[ ]';
		return `${box} ${index + 1} ${item.text}${item.seen ? `: ${item.seen.reason}` : ''}`;
	});
}

/**
 * The list as a task: a number ticks one item, Enter ticks all that are the person's to tick.
 * @param then Facts that Enter stores behind the ticks, to go on at once.
 */
export function checklistTask(
	items: readonly CheckItem[],
	bench: Bench,
	said: Pick<Task, 'headline' | 'why' | 'progress'> & {readonly cautions?: readonly string[]},
	then: readonly Deed[] = [],
): Task {
	const deeds = [...ticksOf(items.filter(item => !item.seen && !isMet(item, bench))), ...then];
	return {
		...said,
		how: checklistLines(items, bench),
		tableRests: true,
		prompt: words.prompt,
		example: words.example,
		...(deeds.length > 0 && {enter: {label: words.all, deeds}, practice: {kind: 'deeds', deeds}}),
	};
}

export function answerChecklist(text: string, items: readonly CheckItem[], bench: Bench): Answer {
	const own = items[Number(text.trim()) - 1];
	if (!/^\d+$/.test(text.trim()) || !own || own.seen)
		return {kind: 'refused', said: words.notAnItem(text.trim(), items.length)};
	return {kind: 'deeds', deeds: [{type: 'ItemTicked', item: own.id, done: !isMet(own, bench)}]};
}

function ticksOf(items: readonly CheckItem[]): readonly Deed[] {
	return items.map(({id}) => ({type: 'ItemTicked', item: id, done: true}) as const);
}
