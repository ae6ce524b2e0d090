// `npm run build`: the launcher, the program and the thread that listens, into dist/.
import {chmod, rm} from 'node:fs/promises';
import {bundle, parts} from './bundle.mjs';

await rm('dist', {recursive: true, force: true});
for (const {entry, name, minify} of parts) await bundle({entry, outfile: `dist/${name}`, minify});
await chmod('dist/evenfloat.js', 0o755);
