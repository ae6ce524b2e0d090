import {existsSync, mkdirSync, mkdtempSync, rmSync, statSync} from 'node:fs';
import {readdir} from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import {type IPty, spawn} from '@lydell/node-pty';
import headless from '@xterm/headless';
import {afterEach} from 'vitest';

/**
 * The real program in a real pseudo-terminal, with a screen model that reads
 * what it writes. Nothing here waits for a time: it waits for the screen.
 */
export interface Program {
	readonly pid: number;
	/** Keys by name (`enter`, `up`, `ctrl+c`) or single characters. */
	press(...keys: readonly string[]): void;
	/** Text as if typed in one go; `\r` is Enter. */
	type(text: string): void;
	/** Text as a terminal pastes it. */
	paste(text: string): void;
	/** Resolves with the screen once it fits; rejects, showing the screen, if the program ends first or half a minute passes. */
	until(fits: string | RegExp | ((screen: string) => boolean)): Promise<string>;
	/** What is on the screen, one row a line, blanks at the ends of rows cut off. */
	screen(): string;
	cursor(): {readonly x: number; readonly y: number};
	isAlternateScreen(): boolean;
	/** Every byte written so far. */
	written(): string;
	resize(columns: number, rows: number): void;
	signal(name: NodeJS.Signals): void;
	/** Resolves once the program has ended and all it wrote is on the screen. */
	readonly ended: Promise<{readonly exitCode: number; readonly signal: number}>;
}

export interface Started {
	readonly folder: string;
	readonly arguments?: readonly string[];
	readonly columns?: number;
	readonly rows?: number;
	readonly environment?: Readonly<Record<string, string>>;
	/** Another program than the built one, run by the same Node. */
	readonly entry?: string;
	/** Another command altogether, such as a shell. */
	readonly command?: readonly [file: string, ...rest: string[]];
}

const running = new Set<IPty>();
const folders = new Set<string>();

afterEach(() => {
	for (const pty of running) pty.kill('SIGKILL');
	running.clear();
	for (const folder of folders) rmSync(folder, {recursive: true, force: true});
	folders.clear();
});

/** A store folder of the test's own. */
export function newFolder(): string {
	const folder = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-walk-'));
	folders.add(folder);
	return folder;
}

export const nodePath = path.resolve('node_modules/.bin/node');

export async function startProgram(start: Started): Promise<Program> {
	const {folder, columns = 80, rows = 24, environment = {}} = start;
	const [file, ...rest] = start.command ?? [
		nodePath,
		start.entry ?? (await builtProgram()),
		...(start.arguments ?? []),
	];
	const pty = spawn(file, rest, {
		cols: columns,
		rows,
		name: environment.TERM ?? 'xterm-256color',
		cwd: folder,
		env: {PATH: process.env.PATH, HOME: folder, LANG: 'C.UTF-8', TZ: 'UTC', EVENFLOAT_STORE: folder, ...environment},
	});
	running.add(pty);
	return watch(pty, columns, rows);
}

function watch(pty: IPty, columns: number, rows: number): Program {
	const terminal = new headless.Terminal({cols: columns, rows, allowProposedApi: true});
	let written = '';
	let isOver = false;
	const waiting = new Set<() => void>();
	/** Frames come between "begin" and "end of synchronized update"; a half-drawn one is not looked at. */
	const isWhole = () => written.lastIndexOf('\u001B[?2026h') <= written.lastIndexOf('\u001B[?2026l');
	const look = () => {
		for (const check of waiting) check();
	};

	pty.onData(data => {
		written += data;
		const ends = isWhole();
		terminal.write(data, () => {
			if (ends) look();
		});
	});
	// The program may ask the terminal something; it answers like a real one.
	terminal.onData(data => {
		if (!isOver) pty.write(data);
	});
	const ended = new Promise<{exitCode: number; signal: number}>(resolve => {
		pty.onExit(({exitCode, signal = 0}) => {
			isOver = true;
			running.delete(pty);
			// Behind everything that was written before.
			terminal.write('', () => {
				look();
				resolve({exitCode, signal});
			});
		});
	});

	const screen = () => {
		const buffer = terminal.buffer.active;
		const lines = Array.from(
			{length: terminal.rows},
			(_, row) => buffer.getLine(buffer.viewportY + row)?.translateToString(true) ?? '',
		);
		return lines.map(line => line.trimEnd()).join('\n');
	};

	return {
		pid: pty.pid,
		ended,
		screen,
		written: () => written,
		press: (...keys) => pty.write(keys.map(bytesOf).join('')),
		type: text => pty.write(text),
		paste: text => pty.write(`\u001B[200~${text}\u001B[201~`),
		cursor: () => ({x: terminal.buffer.active.cursorX, y: terminal.buffer.active.cursorY}),
		isAlternateScreen: () => terminal.buffer.active.type === 'alternate',
		resize(newColumns, newRows) {
			terminal.resize(newColumns, newRows);
			pty.resize(newColumns, newRows);
		},
		signal: name => process.kill(pty.pid, name),
		until(fits) {
			const isThere = () => {
				const now = screen();
				return typeof fits === 'string' ? now.includes(fits) : fits instanceof RegExp ? fits.test(now) : fits(now);
			};

			return new Promise((resolve, reject) => {
				const stop = () => {
					waiting.delete(check);
					clearTimeout(guard);
				};
				const fail = (why: string) => {
					stop();
					reject(new Error(`${why} before ${String(fits)} was on the screen:\n${screen()}`));
				};
				// Not a wait: what a broken program gets instead of a hanging test.
				const guard = setTimeout(() => fail('Half a minute passed'), 30_000);
				const check = () => {
					if (isThere()) {
						stop();
						resolve(screen());
					} else if (isOver) fail('The program ended');
				};
				waiting.add(check);
				check();
			});
		},
	};
}

const escapes: Readonly<Record<string, string>> = {
	enter: '\r',
	escape: '\u001B',
	tab: '\t',
	backspace: '\u007F',
	delete: '\u001B[3~',
	up: '\u001B[A',
	down: '\u001B[B',
	right: '\u001B[C',
	left: '\u001B[D',
	home: '\u001B[H',
	end: '\u001B[F',
	pageup: '\u001B[5~',
	pagedown: '\u001B[6~',
};

function bytesOf(key: string): string {
	if (key.startsWith('ctrl+')) return String.fromCharCode(key.charCodeAt(5) - 96);
	return escapes[key] ?? key;
}

let built: Promise<string> | undefined;

/**
 * The program as `npm run build` leaves it in `dist/`, if that is newer than
 * every source file; else a build of the tests' own beside it, so that tests
 * of a changed source never run the old program and never replace one that
 * another test is running.
 */
export function builtProgram(): Promise<string> {
	built ??= findOrBuild();
	return built;
}

async function findOrBuild(): Promise<string> {
	const shipped = path.resolve('dist/evenfloat.js');
	if (existsSync(shipped) && existsSync('dist/main.js')) {
		const builtAt = statSync('dist/main.js').mtimeMs;
		if (builtAt > (await newestSource())) return shipped;
	}

	const folder = path.resolve(`node_modules/.cache/evenfloat/walk-${process.pid}`);
	mkdirSync(folder, {recursive: true});
	const {parts} = (await import(path.resolve('.build/bundle.mjs'))) as {
		parts: readonly {readonly entry: string; readonly name: string}[];
	};
	for (const {entry, name} of parts) await bundleTo(entry, path.join(folder, name));
	return path.join(folder, 'evenfloat.js');
}

/** Bundles as the build does. */
export async function bundleTo(entry: string, outfile: string): Promise<void> {
	const builder = path.resolve('.build/bundle.mjs');
	const {bundle} = (await import(builder)) as {bundle(job: {entry: string; outfile: string}): Promise<void>};
	await bundle({entry, outfile});
}

async function newestSource(): Promise<number> {
	const files = await readdir('source', {recursive: true, withFileTypes: true});
	return Math.max(
		...files.filter(file => file.isFile()).map(file => statSync(path.join(file.parentPath, file.name)).mtimeMs),
	);
}
