import {spawnSync} from 'node:child_process';

/**
 * Which source a printed table was measured on: `source as of 1a2b3c4`, with a
 * word when files under `source/` differ from it. Undefined where git or its
 * history is absent, as in an unpacked archive.
 *
 * @param folder Inside the checkout.
 */
export function sourceStamp(folder: string = process.cwd()): string | undefined {
	const head = git(folder, 'rev-parse', '--short', 'HEAD');
	if (!head) return undefined;
	const changed = git(folder, 'status', '--porcelain', '--', ':/source');
	return `source as of ${head}${changed ? ', with changes not committed' : ''}`;
}

/** The stamp as a line of its own, before anything is measured: the source may change meanwhile. */
export function printSourceStamp(): void {
	const stamp = sourceStamp();
	if (stamp !== undefined) console.log(`(${stamp})\n`);
}

function git(folder: string, ...words: readonly string[]): string | undefined {
	const {status, stdout} = spawnSync('git', words, {
		cwd: folder,
		encoding: 'utf8',
		stdio: ['ignore', 'pipe', 'ignore'],
	});
	return status === 0 ? stdout.trim() : undefined;
}
