import type {Recheck} from './recheck.ts';

/** Every sentence of comparisons and re-checks. */
export const words = {
	nothingKept: 'No set-up of this guitar got as far as its sheet.',
	visit: (day: string, turns: string) => `${day}: ${turns}`,
	expects: (string: string, expected: string) => `string ${string}: expected ${expected} cents`,
	notReadings: (read: string, count: number, example: string) =>
		`Read ${read}; allowed are cents of all ${count} open strings, string 1 first, once or several times, −300 to 300. For example: ${example}`,
	between: (days: string) =>
		`${days} between the two set-ups. Changes of each string while it was away, and from result to result:`,
	string: (string: string, changes: string) => `string ${string}: ${changes}`,
	other: (string: string, tension: string) => `string ${string}: another string or tuning, pull ${tension}`,
	drift: (cents: string) => `came in ${cents} cents from how it was left`,
	noDrift: 'not read as it came in',
	intonation: (cents: string) => `12th ${cents} cents`,
	saddle: (length: string) => `saddle ${length}`,
	tail: (length: string) => `tail came in ${length} from how it was left`,
	springs: (count: string) => `springs ${count}`,
	action: (length: string) => `action ${length}`,
	total: (force: string) => `pull at pitch ${force}`,
	age: (string: string, days: string) => `string ${string} on for ${days}`,
	ageUnknown: (string: string) => `string ${string}: put on before anything was recorded`,
	asLeft: 'As it was left: nothing but what a night does.',
	usualSettling:
		'Settling, no fault: the new strings are a little flat, as new ones are after a night; retune with the fine tuners.',
	verdicts: {
		'as-left': 'As it was left',
		settling: 'Settling, no fault',
		fault: 'A fault, not settling',
		unclear: 'Changed',
	} satisfies Record<Recheck['verdict'], string>,
	row: (string: string, expected: string, read: string) => `string ${string}: expected ${expected}, read ${read}`,
	unknown: '—',
} as const;
