import {execFileSync} from 'node:child_process';
import {readFileSync} from 'node:fs';
import {type IPty, spawn} from '@lydell/node-pty';

/** A program in a pseudo-terminal, and when what it wrote arrived. Times in ms of `performance.now()`. */
export interface Watched {
	/** Writes to it; what comes next is counted from here. */
	send(bytes: string): number;
	/** Resolves once `text` has been written since the start; with the time at which it had arrived. */
	shows(text: string): Promise<number>;
	/** Resolves with time and bytes once a whole frame has arrived since the last `send`. */
	frame(): Promise<{readonly at: number; readonly bytes: number}>;
	/** Resolves once nothing has come for so long. */
	quiet(ms: number): Promise<void>;
	/** Resident memory, MB. */
	memoryMb(): number;
	/** Time that its main thread was at work so far, ms; undefined where the system does not tell. */
	workMs(): number | undefined;
	/** Killed; or asked to leave, and waited for. */
	end(how?: 'killed' | 'left'): Promise<void>;
}

/** Frames end so: synchronized output, as the terminals' common proposal has it. */
const frameEnd = '\u001B[?2026l';

export interface Size {
	readonly columns: number;
	readonly rows: number;
}

export function watched(
	command: readonly [string, ...string[]],
	{columns, rows}: Size,
	folder: string,
	environment: Readonly<Record<string, string>> = {},
): {readonly startedAt: number; readonly program: Watched} {
	const startedAt = performance.now();
	const [file, ...rest] = command;
	const pty: IPty = spawn(file, rest, {
		cols: columns,
		rows,
		name: 'xterm-256color',
		cwd: folder,
		env: {PATH: process.env.PATH, HOME: folder, LANG: 'C.UTF-8', TZ: 'UTC', EVENFLOAT_STORE: folder, ...environment},
	});
	let all = '';
	let since = '';
	let last = startedAt;
	const waiting = new Set<() => void>();
	pty.onData(data => {
		last = performance.now();
		all += data;
		since += data;
		for (const look of [...waiting]) look();
	});
	let isOver = false;
	const ended = new Promise<void>(resolve => {
		pty.onExit(() => {
			isOver = true;
			resolve();
		});
	});
	const when = <T>(found: () => T | undefined) =>
		new Promise<T>((resolve, reject) => {
			const give = setTimeout(
				() => reject(new Error(`nothing within a minute; the last was ${all.slice(-2000)}`)),
				60_000,
			);
			const look = () => {
				const value = found();
				if (value === undefined) return;
				waiting.delete(look);
				clearTimeout(give);
				resolve(value);
			};
			waiting.add(look);
			look();
		});
	return {
		startedAt,
		program: {
			send(bytes) {
				since = '';
				const at = performance.now();
				pty.write(bytes);
				return at;
			},
			shows: text => when(() => (all.includes(text) ? last : undefined)),
			frame: () => when(() => (since.includes(frameEnd) ? {at: last, bytes: Buffer.byteLength(since)} : undefined)),
			async quiet(ms) {
				for (;;) {
					const idle = performance.now() - last;
					if (idle >= ms) return;
					await new Promise(resolve => setTimeout(resolve, ms - idle + 1));
				}
			},
			memoryMb: () => residentMb(pty.pid),
			workMs: () => workMs(pty.pid),
			async end(how = 'killed') {
				if (how === 'left') pty.write('\u0003');
				else if (!isOver) pty.kill('SIGKILL');
				await ended;
			},
		},
	};
}

/** From the system's own list: `/proc` where there is one, else `ps`. */
function residentMb(pid: number): number {
	try {
		const [, kb] = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
		return Number(kb) / 1024;
	} catch {
		return Number(execFileSync('ps', ['-o', 'rss=', '-p', String(pid)], {encoding: 'utf8'})) / 1024;
	}
}

/** First figure of `/proc/PID/schedstat`: nanoseconds on a processor (kernel documentation, sched-stats). Linux only. */
function workMs(pid: number): number | undefined {
	try {
		return Number(readFileSync(`/proc/${pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6;
	} catch {
		return undefined;
	}
}
