import type {InstrumentSheet} from '../session/sheet.ts';
import {hasShape, isFlag, isNumber, isRecord, isText, optional, type ShapeOf} from '../session/shape.ts';
import {readText, replaceJson} from './json-file.ts';
import type {StoredSetup} from './setup-file.ts';
import type {Shelf} from './shelf.ts';
import path from 'node:path';

/** One line of the list of set-ups. Times are milliseconds since 1970. */
export interface SetupSummary {
	readonly id: string;
	readonly guitarId: string;
	readonly guitarName: string;
	readonly startedAt: number;
	readonly changedAt: number;
	/** Where the person was when it was last left. */
	readonly stage?: string;
	readonly finished: boolean;
	readonly practice: boolean;
	/** Set when two programs went on from one set-up: the other one's id. */
	readonly splitFrom?: string;
}

/** Without the guitar's name, which is the guitar's own; the sheet's name stands in if the guitar is lost. */
export type Abstract = Omit<SetupSummary, 'guitarName'> & {readonly sheetName?: string};

export function abstractOf(setup: StoredSetup): Abstract {
	const sheet = sheetOf(setup);
	const {story: _, undone: __, ...head} = setup;
	return {...head, practice: sheet?.practiceSeed !== undefined, ...(sheet && {sheetName: sheet.name})};
}

function sheetOf({story}: StoredSetup): InstrumentSheet | undefined {
	return story.findLast(fact => fact.type === 'SheetFilled')?.sheet;
}

const shape: ShapeOf<Abstract> = {
	id: isText,
	guitarId: isText,
	startedAt: isNumber,
	changedAt: isNumber,
	stage: optional(isText),
	finished: isFlag,
	practice: isFlag,
	splitFrom: optional(isText),
	sheetName: optional(isText),
};

interface Entry {
	readonly stamp: string;
	readonly abstract: Abstract;
}

/**
 * Abstracts of all set-ups. Reading every story for a list would take longer
 * with every year, so what was found is kept in `index.json` with the stamp of
 * the file that it came from. The index holds nothing of its own: it may be
 * damaged, old or deleted, and is made again.
 */
export function readAbstracts(folder: string, shelf: Shelf<StoredSetup>): readonly Abstract[] {
	const known = readIndex(folder);
	const entries = new Map<string, Entry>();
	let isNew = false;
	for (const id of shelf.ids()) {
		const stamp = shelf.stamp(id);
		const before = known.get(id);
		if (before !== undefined && before.stamp === stamp) {
			entries.set(id, before);
			continue;
		}
		const read = shelf.read(id);
		if (read.kind !== 'current' || stamp === undefined) continue;
		entries.set(id, {stamp, abstract: abstractOf(read.value)});
		isNew = true;
	}
	if (isNew || entries.size !== known.size) writeIndex(folder, entries);
	return [...entries.values()].map(entry => entry.abstract);
}

const version = 1;

function readIndex(folder: string): ReadonlyMap<string, Entry> {
	try {
		const index: unknown = JSON.parse(readText(path.join(folder, 'index.json')) ?? '{}');
		if (!isRecord(index) || index.version !== version || !isRecord(index.setups)) return new Map();
		const isEntry = hasShape({stamp: isText, abstract: hasShape(shape)});
		return new Map(Object.entries(index.setups).filter(([, entry]) => isEntry(entry)) as [string, Entry][]);
	} catch {
		return new Map();
	}
}

function writeIndex(folder: string, entries: ReadonlyMap<string, Entry>): void {
	try {
		const index = {format: 'evenfloat-index', version, setups: Object.fromEntries(entries)};
		replaceJson(folder, 'index', `${JSON.stringify(index)}\n`);
	} catch {
		// Without an index the next list takes longer, no more.
	}
}
