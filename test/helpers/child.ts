import {type ChildProcessByStdio, spawn} from 'node:child_process';
import {mkdirSync, rmSync} from 'node:fs';
import path from 'node:path';
import type {Readable} from 'node:stream';
import {build} from 'esbuild';
import {afterAll, afterEach} from 'vitest';

const cache = path.join(process.cwd(), 'node_modules', '.cache', 'evenfloat');

const bundles: string[] = [];

afterAll(() => {
	for (const bundle of bundles) rmSync(bundle, {force: true});
});

/** Bundles a TypeScript file for a process of its own; the path of the bundle. */
export async function bundled(entry: string): Promise<string> {
	mkdirSync(cache, {recursive: true});
	const outfile = path.join(cache, `${path.basename(entry, '.ts')}-${process.pid}.mjs`);
	await build({
		entryPoints: [entry],
		outfile,
		bundle: true,
		platform: 'node',
		format: 'esm',
		target: 'node22',
		logLevel: 'warning',
		// Some packages inside the bundle still call require().
		banner: {
			js: "import {createRequire as makeRequire} from 'node:module';const require = makeRequire(import.meta.url);",
		},
	});
	bundles.push(outfile);
	return outfile;
}

export interface Child {
	readonly process: ChildProcessByStdio<null, Readable, Readable>;
	/** Whole lines printed so far. */
	readonly lines: readonly string[];
	/** Resolves with the first line, past or future, that fits; rejects if the process ends without one. */
	line(fits: (line: string) => boolean): Promise<string>;
	/** Resolves once the process has ended and everything it printed has arrived. */
	readonly ended: Promise<{readonly code: number | null; readonly signal: NodeJS.Signals | null}>;
}

const running = new Set<ChildProcessByStdio<null, Readable, Readable>>();

afterEach(() => {
	for (const child of running) child.kill('SIGKILL');
});

/** Starts a process whose standard output is read line by line. One that still runs after the test is ended. */
export function start(command: string, given: readonly string[], environment: NodeJS.ProcessEnv = {}): Child {
	const child = spawn(command, given, {stdio: ['ignore', 'pipe', 'pipe'], env: {...process.env, ...environment}});
	running.add(child);
	const lines: string[] = [];
	const waiting = new Set<() => void>();
	let rest = '';
	let errors = '';
	let hasEnded = false;
	child.stdout.setEncoding('utf8').on('data', (text: string) => {
		const parts = (rest + text).split('\n');
		rest = parts.pop() ?? '';
		lines.push(...parts);
		for (const look of [...waiting]) look();
	});
	child.stderr.setEncoding('utf8').on('data', (text: string) => {
		errors += text;
	});
	const ended = new Promise<{code: number | null; signal: NodeJS.Signals | null}>(resolve => {
		child.on('close', (code, signal) => {
			hasEnded = true;
			running.delete(child);
			for (const look of [...waiting]) look();
			resolve({code, signal});
		});
	});
	const line = (fits: (line: string) => boolean) =>
		new Promise<string>((resolve, reject) => {
			const look = () => {
				const found = lines.find(fits);
				if (found === undefined && !hasEnded) return;
				waiting.delete(look);
				if (found === undefined)
					reject(new Error(`the process ended without that line: ${lines.join(' | ')} ${errors}`));
				else resolve(found);
			};
			waiting.add(look);
			look();
		});
	return {process: child, lines, line, ended};
}
