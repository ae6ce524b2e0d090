import {exitCodes, type Wish} from '../command-line.ts';
import {words} from '../session/records/words.ts';
import type {Store} from '../storage/store.ts';
import {expectationLines, hasVisit, historyLines, recheckLines} from './history.ts';

const keepingWords = ['list', 'export', 'import', 'history', 'recheck'] as const;
export type KeepingWish = Extract<Wish, {kind: (typeof keepingWords)[number]}>;

export function isKeeping(wish: Wish): wish is KeepingWish {
	return keepingWords.some(kind => kind === wish.kind);
}

/** Commands that only look at what is kept, or add to it: no wizard. */
export function runKeeping(
	wish: KeepingWish,
	{
		store,
		now,
		read,
		say,
		complain,
	}: {
		readonly store: Store;
		/** Milliseconds since 1970. */
		readonly now: () => number;
		readonly read: (file: string) => string;
		readonly say: (text: string) => void;
		readonly complain: (text: string) => void;
	},
): number {
	switch (wish.kind) {
		case 'list': {
			const kept = store.list();
			if (kept.length === 0) say(`No set-ups are kept in ${store.folder}\n`);
			for (const {id, guitarName, finished, stage, practice, changedAt} of kept) {
				const place = finished ? 'done' : `at ${stage ?? 'the beginning'}`;
				const day = new Date(changedAt).toISOString().slice(0, 10);
				say(`${id}  ${day}  ${place.padEnd(16)}  ${guitarName}${practice ? ' (practice)' : ''}\n`);
			}

			return warned(store, complain);
		}

		case 'export': {
			const guitar = guitarNamed(wish.guitar, store, complain);
			if (guitar === undefined) return exitCodes.problem;
			say(store.exportGuitar(guitar));
			return exitCodes.done;
		}

		case 'history': {
			const guitar = guitarNamed(wish.guitar, store, complain);
			if (guitar === undefined) return exitCodes.problem;
			for (const line of historyLines(store, guitar, now())) say(`${line}\n`);
			return warned(store, complain);
		}

		case 'recheck': {
			const guitar = guitarNamed(wish.guitar, store, complain);
			if (guitar === undefined) return exitCodes.problem;
			if (!hasVisit(store, guitar)) {
				complain(`${words.nothingKept}\n`);
				warned(store, complain);
				return exitCodes.problem;
			}

			for (const line of expectationLines(store, guitar)) say(`${line}\n`);
			let readings: string;
			try {
				readings = read('-');
			} catch (error) {
				complain(`The readings cannot be read: ${error instanceof Error ? error.message : String(error)}\n`);
				return exitCodes.problem;
			}

			const {ok, lines} = recheckLines(store, guitar, readings);
			for (const line of lines) (ok ? say : complain)(`${line}\n`);
			warned(store, complain);
			return ok ? exitCodes.done : exitCodes.problem;
		}

		case 'import': {
			let text: string;
			try {
				text = read(wish.file);
			} catch (error) {
				complain(`${wish.file} cannot be read: ${error instanceof Error ? error.message : String(error)}\n`);
				return exitCodes.problem;
			}

			const imported = store.importGuitar(text);
			if (!imported.ok) {
				complain(`${imported.said}\n`);
				return exitCodes.problem;
			}

			say(`Imported. evenfloat list shows what is kept.\n`);
			return warned(store, complain);
		}
	}
}

/** The id of the one guitar meant; otherwise says why there is none. */
function guitarNamed(named: string, store: Store, complain: (text: string) => void): string | undefined {
	const wanted = named.toLowerCase();
	const found = store.guitars().filter(({id, name}) => id === wanted || name.toLowerCase() === wanted);
	if (found.length === 1) return found[0]!.id;
	const names = store.guitars().map(({id, name}) => `${name} (${id})`);
	complain(
		found.length > 1
			? `Several guitars are called ${named}. Say which by id: ${found.map(({id}) => id).join(', ')}\n`
			: `No guitar is called ${named}. ${names.length > 0 ? `Kept are: ${names.join(', ')}` : 'None is kept yet.'}\n`,
	);
	return undefined;
}

function warned({warnings}: Store, complain: (text: string) => void): number {
	for (const warning of warnings) complain(`${warning}\n`);
	return exitCodes.done;
}
