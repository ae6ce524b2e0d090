import {mkdtempSync, rmSync} from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import type {Programs} from './built.ts';
import {keepLongSession} from './long-session.ts';
import {quantileOf, table} from './table.ts';
import {type Size, type Watched, watched} from './watched.ts';

/** Time between two keys, ms: that of quick fingers, and long enough that a frame held back is not counted as the key's own. */
const betweenMs = 40;

interface Measured {
	/** By the clock, from the key to the whole frame. */
	readonly ms: number[];
	/** What the program's main thread worked for it; empty where the system does not tell. */
	readonly workMs: number[];
	readonly bytes: number[];
}

const nothing = (): Measured => ({ms: [], workMs: [], bytes: []});

const down = '\u001B[B';
const storing = '!: a reading stored';

/** What a person does in a row while tuning: kinds of key and the keys themselves. */
function roundOf(round: number): readonly (readonly [kind: string, bytes: string])[] {
	const reading = `-3${round % 3}.${round % 10}`;
	return [
		...[...reading].map(character => ['a character typed', character] as const),
		// As Enter does, but without a question should the reading surprise.
		[storing, '!'],
		['an arrow key: another string', down],
		['Escape: line cleared', '\u001B'],
		['?: help opened, closed', '?'],
		['?: help opened, closed', '?'],
		['s: story opened, closed', 's'],
		['s: story opened, closed', 's'],
		...(round % 3 === 2
			? ([
					['u: taken back', 'u'],
					['r: put back', 'r'],
				] as const)
			: []),
	];
}

/** Key to whole frame through the pseudo-terminal, in a set-up of 300 facts; a bare Ink program in turn with it. */
export async function keyTimes(programs: Programs, size: Size, rounds: number): Promise<string> {
	const folder = mkdtempSync(path.join(os.tmpdir(), 'evenfloat-bench-'));
	const id = keepLongSession(folder, 300);
	const {program} = watched([process.execPath, programs.ours, 'open', id], size, folder);
	const {program: bare} = watched([process.execPath, programs.bare], size, folder);
	const kinds = new Map<string, Measured>();
	try {
		await bare.shows('Bare and ready');
		await program.shows('tuner shows');
		await program.quiet(300);
		const atOpening = program.memoryMb();
		for (let round = -2; round < rounds; round++) {
			for (const [name, bytes] of roundOf(round + 2)) {
				const kind = kinds.get(name) ?? nothing();
				kinds.set(name, kind);
				await press(program, bytes, kind);
				const toBare = kinds.get('bare Ink program: a character') ?? nothing();
				kinds.set('bare Ink program: a character', toBare);
				if (bytes === '!') await press(bare, 'x', toBare);
			}

			// The first rounds warm what is compiled as it is used.
			if (round === -1) kinds.clear();
		}

		return [
			rowsOf(kinds, size),
			`memory: ${atOpening.toFixed(0)} MB when opened, ${program.memoryMb().toFixed(0)} MB at the end`,
		].join('\n');
	} finally {
		await program.end();
		await bare.end();
		rmSync(folder, {recursive: true, force: true});
	}
}

async function press(program: Watched, bytes: string, {ms, workMs, bytes: sizes}: Measured): Promise<void> {
	const before = program.workMs();
	const sentAt = program.send(bytes);
	const frame = await program.frame();
	await program.quiet(betweenMs);
	const after = program.workMs();
	if (before !== undefined && after !== undefined) workMs.push(after - before);
	ms.push(frame.at - sentAt);
	sizes.push(frame.bytes);
}

function rowsOf(kinds: ReadonlyMap<string, Measured>, {columns, rows}: Size): string {
	const [bare, ours] = [true, false].map(isBare =>
		[...kinds].filter(([name]) => name.startsWith('bare') === isBare),
	) as [[string, Measured][], [string, Measured][]];
	const every: Measured = {
		ms: ours.flatMap(([, {ms}]) => ms),
		workMs: ours.flatMap(([, {workMs}]) => workMs),
		bytes: ours.flatMap(([, {bytes}]) => bytes),
	};
	const two = (values: readonly number[], decimals: number): readonly string[] =>
		[0.5, 0.95].map(share => (values.length === 0 ? '?' : quantileOf(values, share).toFixed(decimals)));
	return table(
		[
			`key to frame at ${columns} x ${rows}, ms`,
			'keys',
			'median',
			'95 %',
			'work, median',
			'95 %',
			'bytes, median',
			'95 %',
		],
		[...bare, ...ours, ['all of ours', every] as const].map(([name, {ms, workMs, bytes}]) => [
			name,
			String(ms.length),
			...two(ms, 1),
			...two(workMs, 1),
			...two(bytes, 0),
		]),
	);
}
