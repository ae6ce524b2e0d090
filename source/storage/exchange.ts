import {isStartOf} from '../session/journal.ts';
import {isListOf, isRecord} from '../session/shape.ts';
import {sayFailure} from './failure.ts';
import {checkedGuitar, type StoredGuitar} from './guitar-file.ts';
import {isId, newId} from './id.ts';
import type {Refused} from './outcome.ts';
import {checkedSetup, type StoredSetup} from './setup-file.ts';
import type {Shelf} from './shelf.ts';
import {type Layout, openDocument} from './versions.ts';

/**
 * A guitar with everything known about it, as one JSON text:
 *
 *     {
 *       "format": "evenfloat-export",
 *       "version": 1,
 *       "exportedAt": 1769850605000,           milliseconds since 1970
 *       "guitar": {
 *         "id": "260131-k7dm", "name": "...", "createdAt": ...,
 *         "learned": ...                       optional, the estimation's own
 *       },
 *       "setups": [{
 *         "id": "260131-x2pf", "guitarId": "260131-k7dm",
 *         "startedAt": ..., "changedAt": ...,
 *         "stage": "...",                      optional
 *         "finished": false,
 *         "splitFrom": "...",                  optional
 *         "story": [...],                      facts, oldest first: `session/facts.ts`
 *         "undone": [[...], ...]               withdrawn entries, next to redo last
 *       }]
 *     }
 */
export const exportLayout: Layout = {format: 'evenfloat-export', version: 1, steps: {}};

export function exportText(guitar: StoredGuitar, setups: readonly StoredSetup[], now: number): string {
	const {format, version} = exportLayout;
	return `${JSON.stringify({format, version, exportedAt: now, guitar, setups}, undefined, '\t')}\n`;
}

export type Imported =
	| {
			readonly ok: true;
			readonly guitarId: string;
			/** Set-ups stored, by the id each has here. */
			readonly setups: readonly string[];
			/** Set-ups that were here already, with all their facts. */
			readonly known: readonly string[];
	  }
	| Refused;

interface Shelves {
	readonly text: string;
	readonly setups: Shelf<StoredSetup>;
	readonly guitars: Shelf<StoredGuitar>;
	readonly now: () => number;
	readonly folder: string;
}

/**
 * Adds what an export holds and overwrites nothing: a guitar that is here
 * keeps its name and what was learned, a set-up that differs from one of the
 * same id comes in under a new id. All is checked before anything is stored.
 */
export function importInto({text, setups: shelf, guitars, now, folder}: Shelves): Imported {
	const read = readExport(text);
	if (!read.ok) return read;
	const {guitar, setups} = read;
	try {
		guitars.guarded(guitar.id, () => {
			const here = guitars.readGuarded(guitar.id);
			if (here.kind === 'absent') guitars.write(guitar.id, guitar);
		});
		const stored: string[] = [];
		const known: string[] = [];
		for (const setup of setups) {
			const here = shelf.read(setup.id);
			if (here.kind === 'current' && isStartOf(setup.story, here.value.story)) {
				known.push(setup.id);
				continue;
			}
			const isFree = here.kind === 'absent';
			const id = isFree ? setup.id : newId(now(), taken => shelf.stamp(taken) !== undefined);
			shelf.guarded(id, () => shelf.write(id, {...setup, id, guitarId: guitar.id}));
			stored.push(id);
		}
		return {ok: true, guitarId: guitar.id, setups: stored, known};
	} catch (error) {
		return {ok: false, said: sayFailure(error, folder)};
	}
}

type Export = {readonly ok: true; readonly guitar: StoredGuitar; readonly setups: readonly StoredSetup[]} | Refused;

function readExport(text: string): Export {
	const refuse = (why: string): Refused => ({
		ok: false,
		said: `This is not a guitar exported from evenfloat: ${why}. Nothing was stored. Make one with: evenfloat export GUITAR`,
	});
	const opened = openDocument(text, exportLayout);
	if (opened.kind === 'newer') {
		return {
			ok: false,
			said: `This was exported by a newer evenfloat (layout ${opened.version}). Nothing was stored; import it with that version.`,
		};
	}
	if (opened.kind === 'damaged') return refuse(opened.why);
	const guitar = checkedGuitar(opened.document.guitar);
	if (guitar.kind !== 'current' || !isId(guitar.value.id)) return refuse('its guitar is not whole');
	const {setups} = opened.document;
	if (!Array.isArray(setups) || !isListOf(isRecord)(setups)) return refuse('it has no list of set-ups');
	const checked: StoredSetup[] = [];
	for (const [index, document] of setups.entries()) {
		const setup = checkedSetup(document);
		if (setup.kind !== 'current') return refuse(`set-up ${index + 1} of ${setups.length} is not whole`);
		if (!isId(setup.value.id)) return refuse(`set-up ${index + 1} of ${setups.length} has no proper id`);
		checked.push(setup.value);
	}
	return {ok: true, guitar: guitar.value, setups: checked};
}
