import type {Deed, Fact, Stamp, Story} from './facts.ts';

/**
 * A story with its way back and forth. An entry is the run of facts that
 * share one `entry` number: what one press of Enter stored. Undo withdraws a
 * whole entry, redo puts it back exactly as it was, stamps included.
 */
export interface Journal {
	readonly story: Story;
	/** Withdrawn entries, the one to be redone next last. Each is a run of facts in order. */
	readonly undone: readonly (readonly Fact[])[];
}

export const emptyJournal: Journal = {story: [], undone: []};

/**
 * Adds one entry. What had been undone can no longer be redone, because it
 * followed another story. No deeds, no entry: the same journal comes back.
 *
 * @param now Milliseconds since 1970. A clock that was set back does not make
 * the story run backwards: a fact is never stamped earlier than the one before.
 */
export function record(journal: Journal, deeds: readonly Deed[], now: number): Journal {
	if (deeds.length === 0) return journal;
	const last = journal.story.at(-1);
	const stamp: Stamp = {at: Math.max(now, last?.at ?? now), entry: (last?.entry ?? 0) + 1};
	return {story: [...journal.story, ...deeds.map((deed): Fact => ({...stamp, ...withoutMinusZero(deed)}))], undone: []};
}

/**
 * A zero with a sign ("-0" as typed, or what is left of a small number when
 * it is rounded) would come back from the disk without it, and a story must be
 * the same before and after. What has none comes back as the same object.
 */
function withoutMinusZero<Value>(value: Value): Value {
	if (Object.is(value, -0)) return 0 as Value;
	if (typeof value !== 'object' || value === null) return value;
	const clean = Object.entries(value).map(([key, each]) => [key, each, withoutMinusZero(each)] as const);
	if (clean.every(([, before, after]) => Object.is(before, after))) return value;
	if (Array.isArray(value)) return clean.map(([, , after]) => after) as Value;
	return Object.fromEntries(clean.map(([key, , after]) => [key, after])) as Value;
}

/** Withdraws the last entry; an empty story stays as it is. */
export function undo(journal: Journal): Journal {
	const {story, undone} = journal;
	const last = story.at(-1);
	if (last === undefined) return journal;
	// Entries are runs, so only the tail has to be looked at.
	const start = story.findLastIndex(fact => fact.entry !== last.entry) + 1;
	return {story: story.slice(0, start), undone: [...undone, story.slice(start)]};
}

/** Puts the entry withdrawn last back; nothing withdrawn, nothing changes. */
export function redo(journal: Journal): Journal {
	const {story, undone} = journal;
	const entry = undone.at(-1);
	if (entry === undefined) return journal;
	return {story: [...story, ...entry], undone: undone.slice(0, -1)};
}

/** Entries that undo can withdraw, one after the other. */
export function entryCount(story: Story): number {
	return story.filter((fact, index) => fact.entry !== story[index - 1]?.entry).length;
}

/** True when every fact of `shorter` stands, unchanged, at the start of `longer`. */
export function isStartOf(shorter: Story, longer: Story): boolean {
	if (shorter.length > longer.length) return false;
	return shorter.every(
		(fact, index) => fact === longer[index] || JSON.stringify(fact) === JSON.stringify(longer[index]),
	);
}
