import {renameSync, rmSync, writeFileSync} from 'node:fs';
import {BusyError, codeOf, isDiskFull} from './failure.ts';
import {readText} from './json-file.ts';
import {mayBeAlive, type Owner, ownerFrom} from './owner.ts';
import {pause} from './pause.ts';

/** Longest wait for another program's save, milliseconds; a save takes a few. */
const patienceMs = 3000;
const stepMs = 3;

/**
 * Runs `work` while no other program runs its own under the same file. Held
 * for one look and one write, never while a person thinks; what a person holds
 * is a claim. A program killed inside leaves the file; the next one sees that
 * its owner has ended and clears it.
 *
 * @throws {BusyError} If another program does not finish in three seconds.
 */
export function guarded<T>(file: string, owner: Owner, work: () => T): T {
	for (let waitedMs = 0; !enter(file, owner); waitedMs += stepMs) {
		if (waitedMs > patienceMs) throw new BusyError(`${file} is held by another program`);
		clearIfLeft(file, waitedMs > patienceMs / 2);
		pause(stepMs);
	}
	try {
		return work();
	} finally {
		rmSync(file, {force: true});
	}
}

function enter(file: string, owner: Owner): boolean {
	try {
		writeFileSync(file, JSON.stringify(owner), {flag: 'wx'});
		return true;
	} catch (error) {
		if (codeOf(error) === 'EEXIST') return false;
		// Made, but the name did not fit in: a full disk.
		if (isDiskFull(error)) rmSync(file, {force: true});
		throw error;
	}
}

/** Takes the file away if its owner has ended, or if it has been nameless for long (killed while entering). */
function clearIfLeft(file: string, hasWaitedLong: boolean): void {
	const text = readText(file);
	if (text === undefined) return;
	const owner = ownerFrom(text);
	if (owner ? mayBeAlive(owner) : !hasWaitedLong) return;
	// Moved first and looked at again: between look and move it may have become someone else's.
	const moved = `${file}.left-${process.pid}`;
	try {
		renameSync(file, moved);
	} catch (error) {
		if (codeOf(error) === 'ENOENT') return;
		throw error;
	}
	if (readText(moved) === text) rmSync(moved, {force: true});
	else renameSync(moved, file);
}
