/** Every sentence of the re-check. */
export const words = {
	title: 'Re-check',
	read: {
		why: (expected: string) => `By how it was left it is expected at ${expected} cents; touch nothing, only pluck.`,
		unknown: 'How it was left is not known; touch nothing, only pluck.',
	},
	all: (count: number) => `All at once: ${count} readings on one line, string 1 first.`,
	otherTargets: 'The strings have other targets than it was left at: all cents here are counted from the new ones.',
	likely: (names: string) => `Likeliest: ${names}.`,
	tune: {
		headline: 'Bring the strings back to pitch.',
		enter: 'tune them',
		out: (names: string) => `Out of tolerance: ${names}.`,
		asTheyAre: 'leave them',
	},
	again: 'Read strings again as often as you like: like 3: -2.',
	prompt: 'a reading, or Enter',
	done: 'finish the re-check',
	tuned: 'The strings are back at pitch.',
	tunedInPart: 'Strings were brought back since; the readings stand as they were taken before.',
} as const;
