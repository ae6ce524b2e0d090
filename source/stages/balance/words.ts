/** Every sentence of the balance stage. */
export const words = {
	title: 'Balance',
	measure: {
		first: 'Measure how high the tail edge of the plate stands above level.',
		again: 'Measure the tail edge again, now that all is at pitch.',
		why: 'Level means the plate parallel to the body; only a measure tells, not the ear.',
		whyAgain: 'One claw step and one pass should have done it; this proves it.',
		how: (arm: string) => [
			`Gap from body to plate under the tail edge, ${arm} behind the knife edge, minus the gap at the posts.`,
			'Type the difference (0.8, -0.5, 0.5 low, level), or both gaps, posts first: 7.2 / 8.0.',
			'Or an angle from a small gauge: 1.2 deg, tail high positive.',
		],
		prompt: 'tail height above level',
		example: '0.8',
	},
	claw: {
		headline: (turns: string) => `Turn both claw screws ${turns}.`,
		why: {
			tighter: (tail: string) => `Left as it is the tail ends ${tail} at pitch: more spring pull brings it down.`,
			looser: (tail: string) => `Left as it is the tail ends ${tail} at pitch: less spring pull lets it up.`,
		},
		atPitch: (tail: string, wish: string) => `Now it would stand ${tail} with all at pitch; wanted ${wish}.`,
		how: [
			'Both alike, an eighth at a time in turn. All goes out of tune: that is planned.',
			'Turned another amount? Type it: 3/8, or 1/2 looser, or treble 1/2 bass 1/4.',
			'Leave enough thread in the wood: a screw backed too far out pulls loose.',
		],
		prompt: 'turns made, both screws',
		example: '1/2 tighter',
		enter: 'turned as told',
	},
	springs: {
		add: (count: number) => `Slacken the strings, then add a spring: ${count} in all.`,
		remove: (count: number) => `Slacken the strings, then take a spring off: ${count} left.`,
		why: (turns: string, force: string) => `The claw alone would need ${turns}, each spring pulling ${force}.`,
		how: [
			'Strings slack first; springs are under load and jump: hold them with a proper hook.',
			'Fitted another number? Type how many are on now. Only the claw after all: press j.',
		],
		cannot:
			'Level and pitch cannot both be had with this claw and these springs; a spring more or less moves the range.',
		prompt: 'springs fitted now',
		enter: 'done',
		clawAnyway: 'claw all the same',
		caution: 'Springs under load jump: strings slack first, eyes protected, a proper hook on the spring.',
	},
	measureAgain: 'measure again',
	done: {
		headline: 'The plate stands as wished and all strings are at pitch. Go on.',
		near: 'As near as an eighth of a turn can bring it.',
		why: (tail: string, wish: string) => `Tail ${tail}, wanted ${wish}.`,
	},
	panel: {
		title: (scale: string) => `bridge from the side, a row is ${scale} at the tail`,
		neck: 'neck',
		tail: 'tail',
		now: (tail: string) => `now ${tail}`,
		measured: (tail: string) => `measured ${tail}`,
		atPitch: (tail: string) => `at pitch ${tail}`,
		wish: (tail: string) => `wanted ${tail}`,
		claw: (turns: string) => `claw so far ${turns}`,
	},
} as const;
