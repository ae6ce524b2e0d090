/** Every sentence of the re-lock stage. */
export const words = {
	title: 'Re-lock',
	ready: {
		headline: 'Look whether all is ready for the clamps.',
		why: 'After clamping only the fine tuners are left, and they reach a few cents.',
		pitches: 'open strings at pitch',
		pitchesWhy: (worst: string, error: string) => `worst is ${worst} at ${error} cents`,
		pitchesOffWhy: (worst: string, error: string) =>
			`each set off by what the clamps did last time; furthest from that is ${worst} at ${error} cents`,
		stretched: 'strings stretched in',
		stretchedWhy: 'every new string was pulled and retuned',
		settledWhy: (cents: string) => `the last pull took no more than ${cents} cents`,
		stillGives: (cents: string) =>
			`strings stretched in; the last pull still took ${cents} cents: pull and retune, or tick`,
		centredWhy: 'set to the middle and not turned since',
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
			'Each block flat on its pair of strings: the middle one first, then the outer ones, all lightly; then all snug in the same order.',
			'A 3 mm hex key is usual, fully seated: a block forced down damages string and nut.',
		],
		enter: 'clamped',
	},
	readAll: {
		why: 'Clamping moved it; a reading of each string shows the shift.',
		all: (count: number) => `All at once: ${count} readings on one line, string 1 first.`,
	},
	offBefore: (string: string, shift: string) =>
		`The clamps moved string ${string} by ${shift} cents last time; it is set off by that beforehand.`,
	shifts: (list: string) => `The clamps moved: ${list} cents (string 1 first).`,
	retainer: (strings: string) =>
		`Strings ${strings} went well sharp: the retainer bar may press them out of line; they should lie flat on the nut before the clamps go on.`,
	nearEnd: (pair: string, left: string) =>
		`Fine tuner near its end, about ${left} cents left: it is tried all the same; else k unlocks the pair ${pair}.`,
	unlock: {
		headline: (name: string, pair: string) =>
			`Unlock ${name}: take the clamps off, the pair ${pair} first, and set the fine tuners to the middle.`,
		why: (needed: string, left: string) =>
			`It needs ${needed} cents and its fine tuner has about ${left} left; the peg brings it home.`,
		how: [
			'Then pegs and clamps are led through once more; little has to be turned.',
			'Try it all the same with the fine tuner? Press j.',
		],
		enter: 'open, tuners in the middle',
		tryIt: 'try it with the fine tuner',
	},
	left: (string: string, flat: string, sharp: string) =>
		`Fine tuner of string ${string}: about ${flat} cents left downwards, ${sharp} upwards.`,
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
