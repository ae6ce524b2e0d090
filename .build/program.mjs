// `npm run build`: the launcher and the program, into dist/.
import {chmod, rm} from 'node:fs/promises';
import {bundle} from './bundle.mjs';

await rm('dist', {recursive: true, force: true});
await bundle({entry: 'source/main.tsx', outfile: 'dist/main.js', minify: true});
await bundle({entry: 'source/launch.ts', outfile: 'dist/evenfloat.js'});
await chmod('dist/evenfloat.js', 0o755);
