import {randomInt} from 'node:crypto';

/** Ids are file names too, on every system, so nothing else may pass for one. */
export function isId(text: string): boolean {
	return /^\d{6}-[a-z0-9]{4,16}$/.test(text);
}

/** Without letters and digits that are taken for one another when copied from a screen. */
const letters = 'abcdefghjkmnpqrstvwxyz23456789';

/** Short enough to type: the day and four characters, such as `260131-k7dm`. */
export function newId(now: number, isTaken: (id: string) => boolean): string {
	const day = new Date(now).toISOString().slice(2, 10).replaceAll('-', '');
	for (;;) {
		const id = `${day}-${Array.from({length: 4}, () => letters[randomInt(letters.length)]).join('')}`;
		if (!isTaken(id)) return id;
	}
}

/** Time of day for a file name: `20260131-093005`, UTC. */
export function timestamp(now: number): string {
	return new Date(now).toISOString().slice(0, 19).replaceAll(/[-:]/g, '').replace('T', '-');
}
