import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {keepLongSession} from './long-session.ts';
import type {Programs} from './built.ts';
import {quantileOf, table} from './table.ts';
import {watched} from './watched.ts';

interface Case {
	readonly name: string;
	readonly folder: string;
	readonly command: readonly [string, ...string[]];
	readonly shows: string;
	readonly environment?: Readonly<Record<string, string>>;
}

interface Measured extends Case {
	/** By the clock, to the first frame. */
	readonly ms: number[];
	/** What the main thread worked by then; empty where the system does not tell. */
	readonly workMs: number[];
	readonly mb: number[];
}

/** Start to first screen and memory there, ours and a bare Ink program's in turn. */
export async function startTimes(programs: Programs, repeats: number): Promise<string> {
	const empty = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-bench-'));
	const full = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-bench-'));
	const id = keepLongSession(full, 300);
	const ours = [process.execPath, programs.ours] as const;
	const first = {folder: empty, command: ours, shows: 'Practise'};
	const cases: readonly Case[] = [
		{
			name: 'bare Ink program',
			folder: empty,
			command: [process.execPath, programs.bare],
			shows: 'Bare and ready',
		},
		{name: 'first screen, from the second start on', ...first},
		{name: 'first screen, nothing compiled kept', ...first, environment: {NODE_DISABLE_COMPILE_CACHE: '1'}},
		{name: 'a set-up of 300 facts opened', folder: full, command: [...ours, 'open', id], shows: 'tuner shows'},
	];
	const measured = cases.map((each): Measured => ({...each, ms: [], workMs: [], mb: []}));
	try {
		for (let repeat = 0; repeat <= repeats; repeat++) {
			for (const each of measured) {
				const {startedAt, program} = watched(each.command, {columns: 80, rows: 24}, each.folder, each.environment);
				const at = await program.shows(each.shows);
				const work = program.workMs();
				await program.quiet(200);
				// The first round warms the disk's cache, and leaves what is kept of compiling.
				if (repeat === 0) {
					await program.end(each.command.includes(programs.ours) ? 'left' : 'killed');
					continue;
				}

				each.ms.push(at - startedAt);
				if (work !== undefined) each.workMs.push(work);
				each.mb.push(program.memoryMb());
				await program.end();
			}
		}
	} finally {
		for (const folder of [empty, full]) rmSync(folder, {recursive: true, force: true});
	}

	const bare = measured[0]!;
	const ratio = (of: (each: Measured) => readonly number[], each: Measured) =>
		of(each).length === 0 ? '?' : (quantileOf(of(each), 0.5) / quantileOf(of(bare), 0.5)).toFixed(2);
	const figure = (values: readonly number[], share: number) =>
		values.length === 0 ? '?' : quantileOf(values, share).toFixed(0);
	return table(
		['start to first frame, ms', 'median', '95 %', 'times bare', 'work', 'times bare', 'memory MB', 'times bare'],
		measured.map(each => [
			each.name,
			figure(each.ms, 0.5),
			figure(each.ms, 0.95),
			ratio(({ms}) => ms, each),
			figure(each.workMs, 0.5),
			ratio(({workMs}) => workMs, each),
			figure(each.mb, 0.5),
			ratio(({mb}) => mb, each),
		]),
	);
}
