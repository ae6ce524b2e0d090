/** Every sentence of the tune stage beyond those of any guided pass. */
export const words = {
	title: 'Tune',
	pull: {
		headline: (names: string) => `Pull ${names} gently away from the body, one after the other.`,
		why: 'New strings give for a while; what is pulled out now does not go flat later.',
		how: [
			'A hand’s breadth at a time along the whole length, gently, face away from the string.',
			'They will read flat afterwards: that is what it is for.',
		],
		enter: 'pulled',
	},
	unsupport: {
		headline: 'Take the support out from under the bridge.',
		why: 'All strings are near pitch, so the bridge can float again; it goes where the balance puts it.',
		how: [
			'Ease it out slowly, a hand on the tail, arm side away from your face.',
			'From then on strings affect each other again.',
		],
		claw: (turns: string) => `To have it come out level, first turn both claw screws ${turns}: press j.`,
		enter: 'support is out',
	},
	claw: (turns: string) => `claws turned ${turns}`,
	supportOut: 'support is out',
	askSupport: 'Strings are not all near pitch: the tail may jump up or drop. Take the support out now?',
	nearEnough: {
		headline: 'Near enough for now. Go on to the plate.',
		why: 'Claw turns detune everything: plate first, then one pass brings pitch and level together.',
		how: ['To turn a string all the same type its number and what the tuner then shows: 5: -3'],
	},
	done: {
		headline: 'All strings are at pitch. Go on.',
		why: (worst: string, error: string, probability: string) =>
			`Worst is ${worst} at ${error} cents; all within tolerance: ${probability} sure.`,
		headlineNear: 'This is as near as the plan brings them. Go on, or turn one once more.',
		again: (string: string) => `To turn string ${string} once more type its number and a colon: ${string}:`,
	},
} as const;
