import {emptyJournal, type Journal} from '../../source/session/journal.ts';
import type {SetupSummary, Store} from '../../source/storage/store.ts';

/** A store that keeps everything in memory, for tests of the wizard that are not about the disk. */
export interface MemoryStore extends Store {
	/** What a second program would load. */
	readonly journals: ReadonlyMap<string, Journal>;
	/** The next saves are refused with this sentence; undefined lets them through again. */
	refuse(said: string | undefined): void;
	/** As if another program had this set-up open. */
	hold(id: string): void;
}

export function memoryStore(now: () => number = () => 1000): MemoryStore {
	const journals = new Map<string, Journal>();
	const heads = new Map<string, SetupSummary>();
	const names = new Map<string, string>();
	const held = new Set<string>();
	let refusal: string | undefined;
	let count = 0;
	const store: MemoryStore = {
		folder: '/nowhere',
		warnings: [],
		journals,
		refuse(said) {
			refusal = said;
		},
		hold: id => void held.add(id),
		list: () =>
			[...heads.values()]
				.filter(({id}) => journals.has(id))
				.map(head => ({...head, guitarName: names.get(head.guitarId)!, practice: isPractice(journals.get(head.id)!)}))
				.toReversed(),
		guitars: () => [...names].map(([id, name]) => ({id, name})),
		create({id, name}) {
			count += 1;
			const guitarId = id ?? `g${count}`;
			if (!names.has(guitarId)) names.set(guitarId, name);
			const head: SetupSummary = {
				id: `s${count}`,
				guitarId,
				guitarName: name,
				startedAt: now(),
				changedAt: now(),
				finished: false,
				practice: false,
			};
			heads.set(head.id, head);
			return head;
		},
		load: id =>
			heads.has(id)
				? {ok: true, journal: journals.get(id) ?? emptyJournal}
				: {ok: false, said: `There is no set-up ${id}.`},
		save(id, journal) {
			if (refusal !== undefined) return {ok: false, said: refusal};
			journals.set(id, journal);
			return {ok: true};
		},
		mark(id, mark) {
			heads.set(id, {...heads.get(id)!, ...mark});
			return {ok: true};
		},
		lastUnfinished: () => store.list().find(({finished}) => !finished),
		remove(id) {
			heads.delete(id);
			journals.delete(id);
			return {ok: true};
		},
		renameGuitar(id, name) {
			names.set(id, name);
			return {ok: true};
		},
		removeGuitar: () => ({ok: true}),
		saveLearned: () => ({ok: true}),
		loadLearned: () => undefined,
		claim: id =>
			held.has(id) ? {held: false, by: {pid: 4711, host: 'bench', since: 0, alive: true}} : {held: true, release() {}},
		takeOver(id) {
			held.delete(id);
			return {held: true, release() {}};
		},
		exportGuitar: () => '{}',
		importGuitar: () => ({ok: false, said: 'not here'}),
	};
	return store;
}

function isPractice({story}: Journal): boolean {
	const sheet = story.findLast(fact => fact.type === 'SheetFilled')?.sheet;
	return sheet?.practiceSeed !== undefined;
}
