// `node .build/run.mjs demo/first-restring.ts [arguments]`: bundle one file and run it.
import {spawnSync} from 'node:child_process';
import {mkdir} from 'node:fs/promises';
import path from 'node:path';
import {bundle} from './bundle.mjs';

const [entry, ...rest] = process.argv.slice(2);
if (!entry) {
	console.error('usage: node .build/run.mjs FILE.ts [arguments]');
	process.exit(2);
}

const folder = path.join('node_modules', '.cache', 'evenfloat');
await mkdir(folder, {recursive: true});
const outfile = path.join(folder, `${entry.replaceAll(/[^a-z0-9]+/gi, '-')}-${process.pid}.mjs`);
await bundle({entry, outfile});
const {status} = spawnSync(process.execPath, [outfile, ...rest], {stdio: 'inherit'});
process.exit(status ?? 1);
