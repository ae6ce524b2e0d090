/** Every sentence of the re-lock stage. */
export const words = {
	title: 'Re-lock',
	ready: {
		headline: 'Look whether all is ready for the clamps.',
		why: 'After clamping only the fine tuners are left, and they reach a few cents.',
		pitches: 'open strings at pitch',
		pitchesWhy: (worst: string, error: string) => `worst is ${worst} at ${error} cents`,
		stretched: 'strings stretched in',
		stretchedWhy: 'every new string was pulled and retuned',
		unstretched: (strings: string) => `strings stretched in; new and not said to be pulled: ${strings}`,
		oldWhy: 'no string is new',
		plate: 'plate stands as wished',
		plateWhy: (tail: string, wish: string) => `tail ${tail}, wanted ${wish}`,
		fineTuners: 'fine tuners near the middle of their travel',
		saddles: 'saddle screws snug',
		flat: 'strings lie flat on the nut under the retainer bar, in their own slots',
	},
	clamp: {
		headline: 'Tighten the clamp blocks, evenly and no more than snug.',
		why: 'Clamping usually pulls pitches sharp by a few cents; the fine tuners take that back.',
		how: [
			'Each block flat on its pair of strings, first all lightly, then all snug, in rotation.',
			'A 3 mm hex key is usual, fully seated: a block forced down damages string and nut.',
		],
		enter: 'clamped',
	},
	readAll: {
		why: 'Clamping moved it; a reading of each string shows the shift.',
		all: (count: number) => `All at once: ${count} readings on one line, string 1 first.`,
	},
	openAgain: 'fine tuner at its end: open the clamps',
	askOpen: 'Open the clamps again, centre that fine tuner and use the peg?',
	done: {
		headline: 'Locked and in tune. Go on to the final check.',
		headlineNear: 'Locked, and as near as the plan brings it. Go on, or turn one once more.',
		why: (worst: string, error: string) => `Worst is ${worst} at ${error} cents.`,
		again: (string: string) => `To turn string ${string} once more type its number and a colon: ${string}:`,
	},
	caution: 'Snug, not hard: clamp blocks, screws and nut are damaged by force.',
} as const;
