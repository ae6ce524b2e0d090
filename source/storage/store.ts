import {emptyJournal, type Journal} from '../session/journal.ts';
import {type Claim, claimsOf} from './claim.ts';
import {exportText, importInto, type Imported} from './exchange.ts';
import {sayFailure} from './failure.ts';
import {chooseFolder, makeReady} from './folder.ts';
import {guitarFrom, guitarText, type StoredGuitar} from './guitar-file.ts';
import {newId} from './id.ts';
import type {Outcome, Refused} from './outcome.ts';
import {newOwner} from './owner.ts';
import {type Mark, type Saved, saverOf} from './saver.ts';
import {setupFrom, setupText, type StoredSetup} from './setup-file.ts';
import {type Shelf, shelfOf, type Surroundings} from './shelf.ts';
import {abstractOf, readAbstracts, type SetupSummary} from './summary.ts';

export type {Claim, Holder} from './claim.ts';
export type {Imported} from './exchange.ts';
export type {Outcome, Refused} from './outcome.ts';
export type {Mark, Saved} from './saver.ts';
export type {SetupSummary} from './summary.ts';

export interface StoreOptions {
	/** Else `EVENFLOAT_STORE`, else the platform's own place for settings. */
	readonly folder?: string;
	/** Milliseconds since 1970. */
	readonly now: () => number;
}

export interface GuitarName {
	readonly id: string;
	readonly name: string;
}

/** All guitars and set-ups of one folder. Calls are synchronous: what returned is on the disk. */
export interface Store {
	readonly folder: string;
	/** Grows: damaged files set aside, files of a newer version, marks that could not be made. Each is said once. */
	readonly warnings: readonly string[];
	/** Newest change first. */
	list(): readonly SetupSummary[];
	/** By name. */
	guitars(): readonly GuitarName[];
	/** A new set-up, of a guitar given by id, or of a new one. Reaches the disk with its first save. */
	create(guitar: {readonly id?: string; readonly name: string}): SetupSummary;
	load(id: string): {readonly ok: true; readonly journal: Journal} | Refused;
	/**
	 * Stores the whole journal. If another program went on from the same
	 * set-up, nothing is overwritten: facts that only this journal has are kept
	 * as a set-up of their own, which the sentence names.
	 */
	save(id: string, journal: Journal): Saved;
	mark(id: string, mark: Mark): Outcome;
	lastUnfinished(): SetupSummary | undefined;
	remove(id: string): Outcome;
	renameGuitar(guitarId: string, name: string): Outcome;
	/** With all its set-ups. */
	removeGuitar(guitarId: string): Outcome;
	/** @param learned Anything JSON can hold. */
	saveLearned(guitarId: string, learned: unknown): Outcome;
	loadLearned(guitarId: string): unknown | undefined;
	/** Marks a set-up as open here, or says who has it. Claims of ended programs are taken silently. */
	claim(id: string): Claim;
	takeOver(id: string): Claim;
	/** JSON as described in `exchange.ts`. @throws {RangeError} If there is no such guitar. */
	exportGuitar(guitarId: string): string;
	importGuitar(text: string): Imported;
}

/** Opens, and makes if need be, the folder where everything is kept. */
export function openStore({folder: asked, now}: StoreOptions): {readonly ok: true; readonly store: Store} | Refused {
	const folder = chooseFolder(asked, process.env);
	const ready = makeReady(folder);
	if (!ready.ok) return ready;
	const warnings: string[] = ready.warning === undefined ? [] : [ready.warning];
	const warn = (said: string) => {
		if (!warnings.includes(said)) warnings.push(said);
	};
	return {ok: true, store: storeIn({folder, now, warn, owner: newOwner(now())}, warnings)};
}

function storeIn(around: Surroundings, warnings: readonly string[]): Store {
	const {folder, now} = around;
	const setups = shelfOf<StoredSetup>(around, {part: 'setups', noun: 'set-up', from: setupFrom, text: setupText});
	const guitars = shelfOf<StoredGuitar>(around, {part: 'guitars', noun: 'guitar', from: guitarFrom, text: guitarText});
	const claims = claimsOf(around, setups);
	/** Made here and not yet stored. */
	const newSetups = new Map<string, StoredSetup>();
	const newGuitars = new Map<string, StoredGuitar>();
	const saver = saverOf({around, setups, claims, newSetups});

	function guitarOf(id: string): StoredGuitar | undefined {
		const read = guitars.read(id);
		return read.kind === 'current' ? read.value : newGuitars.get(id);
	}

	function attempt(work: () => Outcome | undefined): Outcome {
		try {
			return work() ?? {ok: true};
		} catch (error) {
			return {ok: false, said: sayFailure(error, folder)};
		}
	}

	/** Reads, changes and writes a guitar with no other program in between. */
	function changeGuitar(id: string, change: (guitar: StoredGuitar) => StoredGuitar): Outcome {
		return attempt(() =>
			guitars.guarded(id, () => {
				const read = guitars.readGuarded(id);
				// A damaged file has been set aside by now; one that is still there must not be touched.
				if (read.kind === 'refused' && guitars.stamp(id) !== undefined) return {ok: false, said: read.said};
				const guitar = read.kind === 'current' ? read.value : (newGuitars.get(id) ?? lostGuitar(id));
				if (guitar === undefined) return {ok: false, said: `There is no guitar ${id} in ${folder}.`};
				guitars.write(id, change(guitar));
				newGuitars.delete(id);
				return undefined;
			}),
		);
	}

	/** A guitar whose own file is gone, from what its set-ups say. */
	function lostGuitar(id: string): StoredGuitar | undefined {
		const name = nameFromSheets(id);
		return name === undefined ? undefined : {id, name, createdAt: now()};
	}

	function nameFromSheets(guitarId: string): string | undefined {
		return readAbstracts(folder, setups).find(abstract => abstract.guitarId === guitarId)?.sheetName;
	}

	function summaryOf(setup: StoredSetup): SetupSummary {
		return named(abstractOf(setup), guitarOf(setup.guitarId)?.name);
	}

	const store: Store = {
		folder,
		warnings,

		list() {
			const names = new Map<string, string | undefined>();
			const stored = readAbstracts(folder, setups);
			const fresh = [...newSetups.values()].map(abstractOf);
			const summaries = [...stored, ...fresh].map(abstract => {
				const {guitarId} = abstract;
				if (!names.has(guitarId)) names.set(guitarId, guitarOf(guitarId)?.name);
				return named(abstract, names.get(guitarId));
			});
			return summaries.sort((a, b) => b.changedAt - a.changedAt || (a.id < b.id ? 1 : -1));
		},

		guitars() {
			const ids = new Set([...guitars.ids(), ...newGuitars.keys()]);
			const found = [...ids].flatMap(id => guitarOf(id) ?? []);
			return found.map(({id, name}) => ({id, name})).sort((a, b) => a.name.localeCompare(b.name));
		},

		create({id: knownId, name}) {
			const guitarId = knownId ?? newId(now(), id => guitarOf(id) !== undefined);
			if (guitarOf(guitarId) === undefined) newGuitars.set(guitarId, {id: guitarId, name, createdAt: now()});
			const id = newId(now(), taken => newSetups.has(taken) || setups.stamp(taken) !== undefined);
			const setup: StoredSetup = {id, guitarId, startedAt: now(), changedAt: now(), finished: false, ...emptyJournal};
			newSetups.set(id, setup);
			return summaryOf(setup);
		},

		load(id) {
			if (newSetups.has(id)) return {ok: true, journal: emptyJournal};
			return saver.load(id);
		},

		save(id, journal) {
			const guitarId = newSetups.get(id)?.guitarId;
			if (guitarId !== undefined && newGuitars.has(guitarId)) {
				const stored = changeGuitar(guitarId, guitar => guitar);
				if (!stored.ok) return stored;
			}
			return saver.save(id, journal);
		},

		mark: (id, mark) => saver.mark(id, mark),

		lastUnfinished: () => store.list().find(summary => !summary.finished),

		remove(id) {
			newSetups.delete(id);
			return attempt(() => {
				const by = claims.holder(id);
				if (by)
					return {
						ok: false,
						said: `The set-up ${id} is open in another program (process ${by.pid}). Close it there first.`,
					};
				if (setups.stamp(id) !== undefined) setups.guarded(id, () => setups.remove(id));
				return undefined;
			});
		},

		renameGuitar: (guitarId, name) => changeGuitar(guitarId, guitar => ({...guitar, name})),

		removeGuitar(guitarId) {
			const own = store.list().filter(summary => summary.guitarId === guitarId);
			for (const {id} of own) {
				const removed = store.remove(id);
				if (!removed.ok) return removed;
			}
			newGuitars.delete(guitarId);
			return attempt(() => {
				if (guitars.stamp(guitarId) !== undefined) guitars.guarded(guitarId, () => guitars.remove(guitarId));
				return undefined;
			});
		},

		saveLearned: (guitarId, learned) => changeGuitar(guitarId, guitar => ({...guitar, learned})),
		loadLearned: guitarId => guitarOf(guitarId)?.learned,

		claim: claims.claim,
		takeOver: claims.takeOver,

		exportGuitar(guitarId) {
			const guitar = guitarOf(guitarId) ?? lostGuitar(guitarId);
			if (guitar === undefined) {
				throw new RangeError(`exportGuitar: expected the id of a stored guitar, got ${JSON.stringify(guitarId)}`);
			}
			return exportText(guitar, setupsOf(guitarId, setups, folder), now());
		},

		importGuitar: text => importInto({text, guitars, setups, now, folder}),
	};
	return store;
}

function setupsOf(guitarId: string, setups: Shelf<StoredSetup>, folder: string): readonly StoredSetup[] {
	const own = readAbstracts(folder, setups).filter(abstract => abstract.guitarId === guitarId);
	return own.flatMap(({id}) => {
		const read = setups.read(id);
		return read.kind === 'current' ? [read.value] : [];
	});
}

function named({sheetName, ...abstract}: ReturnType<typeof abstractOf>, guitarName: string | undefined): SetupSummary {
	return {...abstract, guitarName: guitarName ?? sheetName ?? 'unnamed guitar'};
}
