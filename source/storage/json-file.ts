import {readFileSync, renameSync, rmSync} from 'node:fs';
import path from 'node:path';
import {writeFileSync} from 'atomically';
import {codeOf, ShortWriteError} from './failure.ts';
import {syncFolder} from './folder.ts';
import {pause} from './pause.ts';

/** The text of a file, or undefined if there is none. Other trouble throws. */
export function readText(file: string): string | undefined {
	try {
		return readFileSync(file, 'utf8');
	} catch (error) {
		if (codeOf(error) === 'ENOENT') return undefined;
		throw error;
	}
}

/**
 * Replaces `folder/name.json` by `text`: afterwards the file holds either the
 * old bytes or the new ones, whatever happens to the program, and when this
 * returns, the new ones are on the disk.
 *
 * `atomically` writes and syncs, but beside the file and not over it: on a
 * disk that is just full a write may store the first part only and report no
 * error, and it would put that part in place of the good file. So what it
 * wrote is read back, and only then renamed.
 *
 * One program at a time may do this for one name: see `guard.ts`.
 *
 * @param text JSON of an object.
 * @throws The file system's own error, or `ShortWriteError`.
 */
export function replaceJson(folder: string, name: string, text: string): void {
	const beside = path.join(folder, `${name}.next.json`);
	// Left by a program that was killed: its owner and mode would be taken over.
	rmSync(beside, {force: true});
	try {
		writeFileSync(beside, text);
		if (readText(beside) !== text) throw new ShortWriteError(`${beside} came out short`);
		renamePatiently(beside, path.join(folder, `${name}.json`));
	} catch (error) {
		rmSync(beside, {force: true});
		throw error;
	}
	syncFolder(path.dirname(beside));
}

/** Some systems refuse a rename for a moment while a virus scanner or an indexer looks at the file. */
function renamePatiently(from: string, to: string): void {
	for (let attempt = 0; ; attempt++) {
		try {
			renameSync(from, to);
			return;
		} catch (error) {
			if (attempt >= 20 || !['EPERM', 'EACCES', 'EBUSY'].includes(codeOf(error) ?? '')) throw error;
			pause(10);
		}
	}
}
