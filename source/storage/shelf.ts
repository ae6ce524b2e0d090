import {existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync} from 'node:fs';
import path from 'node:path';
import {sayFailure} from './failure.ts';
import {syncFolder} from './folder.ts';
import {guarded} from './guard.ts';
import {isId, timestamp} from './id.ts';
import {readText, replaceJson} from './json-file.ts';
import type {Owner} from './owner.ts';
import type {Read} from './setup-file.ts';

/** What every part of the store needs from its surroundings. */
export interface Surroundings {
	readonly folder: string;
	readonly owner: Owner;
	readonly now: () => number;
	/** For the person, sooner or later; the same sentence twice is told once. */
	readonly warn: (said: string) => void;
}

export interface Kind<T> {
	/** Folder inside the store. */
	readonly part: 'setups' | 'guitars';
	/** In sentences: "set-up". */
	readonly noun: string;
	readonly from: (text: string) => Read<T>;
	readonly text: (value: T) => string;
}

export type OnShelf<T> =
	| {readonly kind: 'absent'}
	| {readonly kind: 'current'; readonly value: T; readonly text: string}
	| {readonly kind: 'refused'; readonly said: string};

/** Files of one kind, one per id. Reading sets a damaged file aside; writing never leaves half a file. */
export interface Shelf<T> {
	ids(): readonly string[];
	read(id: string): OnShelf<T>;
	/** The same, for use inside `guarded`. */
	readGuarded(id: string): OnShelf<T>;
	/** Inside `guarded` only. Returns the text now in the file. @throws As `replaceJson`. */
	write(id: string, value: T): string;
	remove(id: string): void;
	/** @throws {BusyError} And what `work` throws. */
	guarded<R>(id: string, work: () => R): R;
	/** Changes whenever the file does; undefined if there is none. */
	stamp(id: string): string | undefined;
}

export function shelfOf<T extends {readonly id: string}>(
	{folder, owner, now, warn}: Surroundings,
	kind: Kind<T>,
): Shelf<T> {
	const place = path.join(folder, kind.part);
	const file = (id: string) => path.join(place, `${id}.json`);
	const under = <R>(id: string, work: () => R): R => {
		if (!isId(id)) throw new RangeError(`guarded: expected an id such as 260131-k7dm, got ${JSON.stringify(id)}`);
		return guarded(path.join(place, `${id}.guard`), owner, work);
	};

	function look(id: string): OnShelf<T> | {readonly kind: 'damaged'; readonly why: string; readonly text: string} {
		if (!isId(id)) return {kind: 'absent'};
		let text: string | undefined;
		try {
			text = readText(file(id));
		} catch (error) {
			const said = `The ${kind.noun} ${id} cannot be read. ${sayFailure(error, folder)}`;
			warn(said);
			return {kind: 'refused', said};
		}
		if (text === undefined) return {kind: 'absent'};
		const read = kind.from(text);
		// The name of the file counts: a copy made by hand under another name is a thing of its own.
		if (read.kind === 'current') return {kind: 'current', value: {...read.value, id}, text};
		if (read.kind === 'damaged') return {...read, text};
		const said = `The ${kind.noun} ${id} was written by a newer evenfloat (layout ${read.version}). It is left untouched; open it with that version.`;
		warn(said);
		return {kind: 'refused', said};
	}

	/** Kept under a name of its own, never over another file. */
	function setAside(id: string, why: string): OnShelf<T> {
		const aside = path.join(folder, 'damaged');
		let said: string;
		try {
			mkdirSync(aside, {recursive: true});
			const stem = path.join(aside, `${kind.part}-${id}-${timestamp(now())}`);
			let to = `${stem}.json`;
			for (let more = 2; existsSync(to); more++) to = `${stem}-${more}.json`;
			renameSync(file(id), to);
			syncFolder(place);
			said = `The ${kind.noun} ${id} is damaged: ${why}. Its file was set aside, unchanged, as ${to}.`;
		} catch (error) {
			said = `The ${kind.noun} ${id} is damaged: ${why}. It could not be set aside and stays in ${file(id)}. ${sayFailure(error, folder)}`;
		}
		warn(said);
		return {kind: 'refused', said};
	}

	function readGuarded(id: string): OnShelf<T> {
		const seen = look(id);
		return seen.kind === 'damaged' ? setAside(id, seen.why) : seen;
	}

	return {
		ids() {
			const names = existsSync(place) ? readdirSync(place) : [];
			return names
				.filter(name => name.endsWith('.json'))
				.map(name => name.slice(0, -'.json'.length))
				.filter(isId);
		},
		read(id) {
			const seen = look(id);
			if (seen.kind !== 'damaged') return seen;
			try {
				// Looked at again inside: another program may have put a whole file there since.
				return under(id, () => readGuarded(id));
			} catch (error) {
				const said = `The ${kind.noun} ${id} is damaged: ${seen.why}. It stays in ${file(id)}. ${sayFailure(error, folder)}`;
				warn(said);
				return {kind: 'refused', said};
			}
		},
		readGuarded,
		write(id, value) {
			if (!isId(id)) throw new RangeError(`write: expected an id such as 260131-k7dm, got ${JSON.stringify(id)}`);
			const text = kind.text(value);
			replaceJson(folder, path.join(kind.part, id), text);
			return text;
		},
		remove(id) {
			if (isId(id)) rmSync(file(id), {force: true});
		},
		guarded: under,
		stamp(id) {
			if (!isId(id)) return undefined;
			const stat = statSync(file(id), {bigint: true, throwIfNoEntry: false});
			return stat && `${stat.ino}:${stat.mtimeNs}:${stat.size}`;
		},
	};
}
