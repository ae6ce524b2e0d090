import {randomUUID} from 'node:crypto';
import {readFileSync} from 'node:fs';
import os from 'node:os';
import {hasShape, isNumber, isText, optional, type ShapeOf} from '../session/shape.ts';
import {codeOf} from './failure.ts';

/** A running program that holds something. */
export interface Owner {
	readonly pid: number;
	readonly host: string;
	/** When the process began, in the system's own count, where it tells: a process number is used again after a restart. */
	readonly born?: string;
	/** Tells apart two stores of one process. */
	readonly token: string;
	/** Milliseconds since 1970. */
	readonly since: number;
}

export function newOwner(since: number): Owner {
	const born = birthOf(process.pid);
	return {pid: process.pid, host: os.hostname(), ...(born && {born}), token: randomUUID(), since};
}

const shape: ShapeOf<Owner> = {pid: isNumber, host: isText, born: optional(isText), token: isText, since: isNumber};

export function ownerFrom(text: string | undefined): Owner | undefined {
	if (text === undefined) return undefined;
	try {
		const value: unknown = JSON.parse(text);
		return hasShape(shape)(value) ? (value as Owner) : undefined;
	} catch {
		return undefined;
	}
}

/** False only when it is certain that the program has ended: on another machine (a shared folder) nobody can tell. */
export function mayBeAlive(owner: Owner): boolean {
	if (owner.host !== os.hostname()) return true;
	try {
		process.kill(owner.pid, 0);
	} catch (error) {
		return codeOf(error) !== 'ESRCH';
	}
	return owner.born === undefined || owner.born === birthOf(owner.pid);
}

/** Start time of a process since boot, clock ticks: field 22 of `/proc/PID/stat` (proc(5)), with the boot's own id. Linux only. */
function birthOf(pid: number): string | undefined {
	try {
		const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
		const boot = readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
		// The second field is the program's name in brackets and may hold blanks; count from its end.
		const ticks = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
		return ticks === undefined ? undefined : `${boot}:${ticks}`;
	} catch {
		return undefined;
	}
}
