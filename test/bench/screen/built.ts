import {mkdirSync} from 'node:fs';
import path from 'node:path';

/** The program as it is shipped, and a bare Ink program bundled alike; built anew. */
export interface Programs {
	readonly ours: string;
	readonly bare: string;
}

export async function builtPrograms(): Promise<Programs> {
	const builder = path.resolve('.build/bundle.mjs');
	const {bundle} = (await import(builder)) as {
		bundle(job: {entry: string; outfile: string; minify?: boolean}): Promise<void>;
	};
	const folder = path.resolve('node_modules/.cache/evenfloat/bench');
	mkdirSync(folder, {recursive: true});
	const to = (name: string) => path.join(folder, name);
	await bundle({entry: 'source/main.tsx', outfile: to('main.js'), minify: true});
	await bundle({entry: 'source/launch.ts', outfile: to('evenfloat.js')});
	await bundle({entry: 'test/bench/screen/bare-ink.tsx', outfile: to('bare.js'), minify: true});
	return {ours: to('evenfloat.js'), bare: to('bare.js')};
}
