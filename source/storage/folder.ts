import {closeSync, existsSync, fsyncSync, mkdirSync, openSync, rmSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import envPaths from 'env-paths';
import {codeOf, isDiskFull, sayFailure} from './failure.ts';

/**
 * Where set-ups are kept: what was asked for, else `EVENFLOAT_STORE`, else
 * the platform's own place for a program's settings.
 */
export function chooseFolder(asked: string | undefined, environment: NodeJS.ProcessEnv): string {
	const chosen = asked || environment.EVENFLOAT_STORE || envPaths('evenfloat', {suffix: ''}).config;
	return path.resolve(chosen);
}

export type FolderReady = {readonly ok: true; readonly warning?: string} | {readonly ok: false; readonly said: string};

/** Makes the folder and tries a file in it, so that trouble is told before anything is entered. */
export function makeReady(folder: string): FolderReady {
	const trial = path.join(folder, `.trial-${process.pid}`);
	try {
		for (const part of ['setups', 'guitars']) makeFolder(path.join(folder, part));
		writeFileSync(trial, 'can this folder be written?');
		return {ok: true};
	} catch (error) {
		// What is there can still be read, and space may be found before the first entry.
		if (isDiskFull(error)) return {ok: true, warning: sayFailure(error, folder)};
		return {ok: false, said: sayFailure(error, folder)};
	} finally {
		try {
			rmSync(trial, {force: true});
		} catch {
			// Under a path that is no folder there is nothing to take away either.
		}
	}
}

/**
 * One level after the other, because Node's own `recursive` never returns
 * where the system answers "no such folder" for a parent that is there, as
 * Linux does under /proc.
 */
function makeFolder(folder: string): void {
	if (existsSync(folder)) return;
	const parent = path.dirname(folder);
	if (parent !== folder) makeFolder(parent);
	try {
		mkdirSync(folder);
	} catch (error) {
		// Another program was a moment quicker.
		if (codeOf(error) !== 'EEXIST') throw error;
	}
}

/** Makes a rename outlast a power cut; systems that cannot sync a folder do without. */
export function syncFolder(folder: string): void {
	try {
		const handle = openSync(folder, 'r');
		try {
			fsyncSync(handle);
		} finally {
			closeSync(handle);
		}
	} catch {
		// The file's own bytes were synced before; only the moment of the rename is at stake.
	}
}
