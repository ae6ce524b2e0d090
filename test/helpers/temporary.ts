import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {afterEach} from 'vitest';

/** A fresh folder of the test's own; gone after it. Call inside a test. */
export function temporaryFolder(): string {
	const folder = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-test-'));
	folders.push(folder);
	return folder;
}

const folders: string[] = [];

afterEach(() => {
	for (const folder of folders.splice(0)) rmSync(folder, {recursive: true, force: true});
});
