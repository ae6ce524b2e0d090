import {isStartOf, type Journal} from '../session/journal.ts';
import type {Claims} from './claim.ts';
import {sayFailure} from './failure.ts';
import {isId, newId} from './id.ts';
import type {Outcome, Refused} from './outcome.ts';
import type {StoredSetup} from './setup-file.ts';
import type {Shelf, Surroundings} from './shelf.ts';

/** `keptAs` names the set-up into which facts went that could not be stored in their own. */
export type Saved = {readonly ok: true} | (Refused & {readonly keptAs?: string});

export interface Mark {
	readonly stage?: string;
	readonly finished?: boolean;
}

export interface Saver {
	load(id: string): {readonly ok: true; readonly journal: Journal} | Refused;
	save(id: string, journal: Journal): Saved;
	mark(id: string, mark: Mark): Outcome;
}

interface Parts {
	readonly around: Surroundings;
	readonly setups: Shelf<StoredSetup>;
	readonly claims: Claims;
	/** Made here and not yet stored; those that are stored are taken out. */
	readonly newSetups: Map<string, StoredSetup>;
}

/** What stands in the way of a change: nothing, another program's work, or something said in words. */
type Way = {readonly kind: 'free'; readonly base: StoredSetup; readonly isAsSeen: boolean} | Blocked;
type Blocked = {readonly kind: 'taken'; readonly said: string} | {readonly kind: 'stuck'; readonly said: string};

/**
 * Loading and saving such that two programs on one set-up lose nothing. Each
 * save compares what lies on the disk with what this program last saw there;
 * if someone else wrote in between, it refuses, and what only this program
 * knows goes into a set-up of its own.
 */
export function saverOf({around, setups, claims, newSetups}: Parts): Saver {
	const {folder, now} = around;
	/** Each file as this program last read or wrote it. */
	const seen = new Map<string, {readonly text: string; readonly setup: StoredSetup}>();
	/** Where facts that could not go into their own set-up are kept, by its id. */
	const splits = new Map<string, string>();
	const unknown = (id: string): string => `There is no set-up ${id} in ${folder}.`;

	/** For use inside the guard of `id`. */
	function wayFor(id: string): Way {
		const disk = setups.readGuarded(id);
		// A damaged file has been set aside by now; one that is still there must not be touched.
		if (disk.kind === 'refused' && setups.stamp(id) !== undefined) return {kind: 'stuck', said: disk.said};
		const by = claims.holder(id);
		if (by) {
			const said = `The set-up ${id} is open in another program (process ${by.pid}), which took it over; nothing was overwritten.`;
			return {kind: 'taken', said};
		}
		const before = seen.get(id);
		if (disk.kind === 'current') return {kind: 'free', base: disk.value, isAsSeen: disk.text === before?.text};
		const base = before?.setup ?? newSetups.get(id);
		return base ? {kind: 'free', base, isAsSeen: true} : {kind: 'stuck', said: unknown(id)};
	}

	function guarded<R>(id: string, work: () => R): R | Blocked {
		if (!isId(id)) return {kind: 'stuck', said: unknown(id)};
		try {
			return setups.guarded(id, work);
		} catch (error) {
			return {kind: 'stuck', said: sayFailure(error, folder)};
		}
	}

	function write(id: string, setup: StoredSetup): void {
		const stamped = {...setup, changedAt: Math.max(now(), setup.changedAt)};
		seen.set(id, {text: setups.write(id, stamped), setup: stamped});
		newSetups.delete(id);
	}

	/** Keeps facts that the set-up's own file does not have; undefined if it has them all. */
	function split(id: string, journal: Journal): {readonly said: string; readonly keptAs?: string} | undefined {
		const disk = setups.read(id);
		if (disk.kind !== 'current' || isStartOf(journal.story, disk.value.story)) return undefined;
		const keptAs = splits.get(id) ?? newId(now(), taken => setups.stamp(taken) !== undefined);
		const kept = guarded(keptAs, () => {
			const {stage: _, ...base} = seen.get(keptAs)?.setup ?? {...disk.value, startedAt: now(), finished: false};
			write(keptAs, {...base, ...journal, id: keptAs, splitFrom: id});
		});
		if (kept !== undefined) return {said: ` It could not be kept aside either: ${kept.said}`};
		splits.set(id, keptAs);
		return {said: ` What was entered here is kept as set-up ${keptAs}.`, keptAs};
	}

	return {
		load(id) {
			const read = setups.read(id);
			if (read.kind === 'absent') return {ok: false, said: unknown(id)};
			if (read.kind === 'refused') return {ok: false, said: read.said};
			seen.set(id, {text: read.text, setup: read.value});
			const {story, undone} = read.value;
			return {ok: true, journal: {story, undone}};
		},

		save(id, {story, undone}) {
			const blocked = guarded(id, (): Blocked | undefined => {
				const way = wayFor(id);
				if (way.kind !== 'free') return way;
				if (!way.isAsSeen && !isStartOf(way.base.story, story)) {
					const said = `The set-up ${id} was changed by another program in the meantime; nothing was overwritten.`;
					return {kind: 'taken', said};
				}
				write(id, {...way.base, story, undone});
				return undefined;
			});
			if (blocked === undefined) return {ok: true};
			const kept = blocked.kind === 'taken' ? split(id, {story, undone}) : undefined;
			return {ok: false, ...kept, said: blocked.said + (kept?.said ?? '')};
		},

		mark(id, mark) {
			const fresh = newSetups.get(id);
			if (fresh !== undefined) {
				newSetups.set(id, {...fresh, ...mark});
				return {ok: true};
			}
			const blocked = guarded(id, (): Blocked | undefined => {
				const way = wayFor(id);
				if (way.kind !== 'free') return way;
				if (hasMark(way.base, mark)) return undefined;
				const before = seen.get(id);
				write(id, {...way.base, ...mark});
				// Facts of another program that passed through here were not seen by this one.
				if (!way.isAsSeen && before) seen.set(id, before);
				else if (!way.isAsSeen) seen.delete(id);
				return undefined;
			});
			return blocked === undefined ? {ok: true} : {ok: false, said: blocked.said};
		},
	};
}

function hasMark(setup: StoredSetup, {stage, finished}: Mark): boolean {
	return (stage === undefined || setup.stage === stage) && (finished === undefined || setup.finished === finished);
}
