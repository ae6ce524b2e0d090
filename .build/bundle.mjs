// Bundles a TypeScript entry into one plain module for Node. Used for the
// shipped program (smaller, and quicker to start than loose modules) and for
// running demos and benchmarks, which import the same sources.
import {build} from 'esbuild';

/** What the shipped program is made of; the launcher last, so that it never stands there alone. */
export const parts = [
	{entry: 'source/main.tsx', name: 'main.js', minify: true},
	{entry: 'source/shell/ears/desk-thread.ts', name: 'desk-thread.js', minify: true},
	{entry: 'source/launch.ts', name: 'evenfloat.js', minify: false},
];

/**
 * @param {{entry: string, outfile: string, minify?: boolean}} job
 * @returns {Promise<string[]>} The files that went into it.
 */
export async function bundle({entry, outfile, minify = false}) {
	const {metafile} = await build({
		metafile: true,
		entryPoints: [entry],
		outfile,
		bundle: true,
		platform: 'node',
		format: 'esm',
		target: 'node22',
		jsx: 'automatic',
		minify,
		legalComments: 'none',
		define: {'process.env.NODE_ENV': '"production"'},
		// Some packages inside the bundle still call require().
		banner: {
			js: "import {createRequire as makeRequire} from 'node:module';const require = makeRequire(import.meta.url);",
		},
		// Only wanted for debugging Ink itself; leaving it external breaks the start.
		plugins: [
			{
				name: 'no-devtools',
				setup(b) {
					b.onResolve({filter: /^react-devtools-core$/}, () => ({path: 'none', namespace: 'empty'}));
					b.onLoad({filter: /.*/, namespace: 'empty'}, () => ({contents: 'export default {};'}));
				},
			},
		],
		logLevel: 'warning',
	});
	return Object.keys(metafile.inputs);
}
