import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import {keepLongSession} from './long-session.ts';
import type {Programs} from './built.ts';
import {quantileOf, table} from './table.ts';
import {watched} from './watched.ts';

interface Case {
	readonly name: string;
	readonly command: readonly [string, ...string[]];
	readonly shows: string;
	readonly ms: number[];
	readonly mb: number[];
}

/** Start to first screen and memory there, ours and a bare Ink program's in turn. */
export async function startTimes(programs: Programs, repeats: number): Promise<string> {
	const empty = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-bench-'));
	const full = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-bench-'));
	const id = keepLongSession(full, 300);
	const node = process.execPath;
	const cases: readonly (Case & {readonly folder: string})[] = [
		{name: 'bare Ink program', folder: empty, command: [node, programs.bare], shows: 'Bare and ready', ms: [], mb: []},
		{name: 'first screen', folder: empty, command: [node, programs.ours], shows: 'Practise', ms: [], mb: []},
		{
			name: 'a set-up of 300 facts opened',
			folder: full,
			command: [node, programs.ours, 'open', id],
			shows: 'tuner shows',
			ms: [],
			mb: [],
		},
	];
	try {
		for (let repeat = 0; repeat <= repeats; repeat++) {
			for (const each of cases) {
				const {startedAt, program} = watched(each.command, {columns: 80, rows: 24}, each.folder);
				const at = await program.shows(each.shows);
				await program.quiet(200);
				// The first round warms the disk's cache.
				if (repeat > 0) {
					each.ms.push(at - startedAt);
					each.mb.push(program.memoryMb());
				}

				await program.end();
			}
		}
	} finally {
		for (const folder of [empty, full]) rmSync(folder, {recursive: true, force: true});
	}

	const [bare] = cases;
	return table(
		['start to first frame, ms', 'median', '95 %', 'times bare', 'memory MB', 'times bare'],
		cases.map(({name, ms, mb}) => [
			name,
			quantileOf(ms, 0.5).toFixed(0),
			quantileOf(ms, 0.95).toFixed(0),
			(quantileOf(ms, 0.5) / quantileOf(bare!.ms, 0.5)).toFixed(2),
			quantileOf(mb, 0.5).toFixed(0),
			(quantileOf(mb, 0.5) / quantileOf(bare!.mb, 0.5)).toFixed(2),
		]),
	);
}
