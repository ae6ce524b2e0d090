import {readdirSync, rmSync, writeFileSync} from 'node:fs';
import path from 'node:path';
import {isDiskFull, sayFailure} from './failure.ts';
import {readText} from './json-file.ts';
import {mayBeAlive, type Owner, ownerFrom} from './owner.ts';
import type {Shelf, Surroundings} from './shelf.ts';

/** Who has a set-up open. */
export interface Holder {
	readonly pid: number;
	readonly host: string;
	/** Milliseconds since 1970. */
	readonly since: number;
	/** True unless it is certain that the program has ended; a claim of an ended program is simply taken. */
	readonly alive: boolean;
}

export type Claim = {readonly held: true; release(): void} | {readonly held: false; readonly by: Holder};

export interface Claims {
	claim(id: string): Claim;
	takeOver(id: string): Claim;
	/** Another program that has this set-up open and may be alive. */
	holder(id: string): Owner | undefined;
}

/**
 * Marks a set-up as open in this program, for as long as a person works on
 * it, in `setups/ID.lock`. Only for telling a second program: what keeps facts
 * safe is the comparison made at each save.
 */
export function claimsOf({folder, owner, now, warn}: Surroundings, shelf: Pick<Shelf<unknown>, 'guarded'>): Claims {
	const place = path.join(folder, 'setups');
	const lock = (id: string) => path.join(place, `${id}.lock`);

	function holder(id: string): Owner | undefined {
		const by = ownerFrom(readText(lock(id)));
		return by && by.token !== owner.token && mayBeAlive(by) ? by : undefined;
	}

	function take(id: string): Claim {
		writeFileSync(lock(id), JSON.stringify({...owner, since: now()} satisfies Owner));
		sweep(id);
		return {held: true, release: () => release(id)};
	}

	function release(id: string): void {
		try {
			shelf.guarded(id, () => {
				if (ownerFrom(readText(lock(id)))?.token === owner.token) rmSync(lock(id), {force: true});
			});
		} catch {
			// Left behind, it names a program that has ended and is taken silently.
		}
	}

	/** Files that a killed program was still writing; nobody else writes them inside the guard. */
	function sweep(id: string): void {
		for (const name of readdirSync(place)) {
			if (name.startsWith(`${id}.next.json`)) rmSync(path.join(place, name), {force: true});
		}
	}

	function attempt(id: string, isForced: boolean): Claim {
		try {
			return shelf.guarded(id, (): Claim => {
				const by = holder(id);
				if (by === undefined || isForced) return take(id);
				return {held: false, by: {pid: by.pid, host: by.host, since: by.since, alive: true}};
			});
		} catch (error) {
			if (error instanceof RangeError) throw error;
			// Working without a mark is better than not working; saves are compared all the same.
			if (isDiskFull(error)) rmSync(lock(id), {force: true});
			warn(`The set-up ${id} could not be marked as open here. ${sayFailure(error, folder)}`);
			return {held: true, release() {}};
		}
	}

	return {claim: id => attempt(id, false), takeOver: id => attempt(id, true), holder};
}
