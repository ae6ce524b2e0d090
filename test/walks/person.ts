import type {Program} from './harness.ts';

/** The one thing asked, as it stands on the screen: what is behind the bar, in one line, minus signs as typed. */
export function asked(screen: string): string {
	const rows = screen.split('\n').filter(row => /^ [▌|] /.test(row));
	return rows
		.map(row => row.slice(3).split(/ {4,}/)[0]!.trim())
		.filter(Boolean)
		.join(' ')
		.replaceAll('−', '-');
}

/** The step that the header names: `Tune, step 3 of 8`. */
export function step(screen: string): string {
	return /(\S[^ ]*(?: \S+)?), step \d of \d/.exec(screen)?.[1] ?? '';
}

/** Where the table says that a string stands now, as a person would round it off. */
export function believed(screen: string, string: string): string | undefined {
	const row = screen.split('\n').find(line => new RegExp(`^ [▸> ]${string} `).test(line));
	return /([−+]?\d+(?:\.\d+)?) ±/.exec(row ?? '')?.[1]?.replace('−', '-');
}

/** Presses keys and waits until the screen has answered; a line is typed first and entered then, for an answer may leave the screen as it was. */
export async function answer(program: Program, keys: string): Promise<string> {
	if (keys.length > 1 && keys.endsWith('\r')) {
		const empty = program.screen();
		program.type(keys.slice(0, -1));
		await program.until(screen => screen !== empty);
		return answer(program, '\r');
	}

	const before = program.screen();
	program.type(keys);
	return program.until(screen => screen !== before && isAsking(screen));
}

/** An empty entry line: what was typed has been taken. */
function isAsking(screen: string): boolean {
	const entry = screen.split('\n').findLast(row => row.includes('›')) ?? '';
	return /› *(such as|$)/.test(entry.trimEnd()) || screen.includes('This set-up is done');
}
