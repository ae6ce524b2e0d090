import {accessSync, constants, statSync} from 'node:fs';
import path from 'node:path';

/** Where a program is found on the search path; undefined if it is not. */
export function onPath(
	name: string,
	environment: Readonly<Record<string, string | undefined>>,
	platform: string,
): string | undefined {
	const isWindows = platform === 'win32';
	const search = environment.PATH ?? environment.Path ?? '';
	const endings = isWindows ? (environment.PATHEXT ?? '.EXE;.CMD').split(';') : [''];
	for (const folder of search.split(isWindows ? ';' : ':')) {
		if (folder === '') continue;
		for (const ending of endings) {
			const file = path.join(folder, name + ending);
			if (isRunnable(file)) return file;
		}
	}

	return undefined;
}

function isRunnable(file: string): boolean {
	try {
		accessSync(file, constants.X_OK);
		return statSync(file).isFile();
	} catch {
		return false;
	}
}
