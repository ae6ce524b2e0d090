import {exitCodes, type Wish} from '../command-line.ts';
import type {Store} from '../storage/store.ts';

/** Commands that only look at what is kept: list, export, import. */
export function runKeeping(
	wish: Extract<Wish, {kind: 'list' | 'export' | 'import'}>,
	{
		store,
		read,
		say,
		complain,
	}: {
		readonly store: Store;
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
			const wanted = wish.guitar.toLowerCase();
			const found = store.guitars().filter(({id, name}) => id === wanted || name.toLowerCase() === wanted);
			if (found.length === 1) {
				say(store.exportGuitar(found[0]!.id));
				return exitCodes.done;
			}

			const names = store.guitars().map(({id, name}) => `${name} (${id})`);
			complain(
				found.length > 1
					? `Several guitars are called ${wish.guitar}. Say which by id: ${found.map(({id}) => id).join(', ')}\n`
					: `No guitar is called ${wish.guitar}. ${names.length > 0 ? `Kept are: ${names.join(', ')}` : 'None is kept yet.'}\n`,
			);
			return exitCodes.problem;
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

function warned({warnings}: Store, complain: (text: string) => void): number {
	for (const warning of warnings) complain(`${warning}\n`);
	return exitCodes.done;
}
