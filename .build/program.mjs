// `npm run build`: the launcher, the program and the thread that listens, into dist/,
// with the licences of what is inside.
import {chmod, rm, writeFile} from 'node:fs/promises';
import path from 'node:path';
import {pathToFileURL} from 'node:url';
import {bundle, parts} from './bundle.mjs';
import {noticesFor} from './notices.mjs';

/** @param {string} folder Where the program goes. */
export async function build(folder) {
	const inputs = [];
	for (const {entry, name, minify} of parts) {
		inputs.push(...(await bundle({entry, outfile: path.join(folder, name), minify})));
	}

	await writeFile(path.join(folder, 'THIRD-PARTY-NOTICES.txt'), noticesFor(inputs));
	await chmod(path.join(folder, 'evenfloat.js'), 0o755);
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
	await rm('dist', {recursive: true, force: true});
	await build('dist');
}
