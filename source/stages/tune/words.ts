/** Every sentence of the tune stage beyond those of any guided pass. */
/** Words for one side of a held bridge. */
type LiftSide = Readonly<Record<'way' | 'back' | 'other' | 'stir' | 'end' | 'gone', string>>;

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
	foreseen: {
		headline: (turns: string) => `Turn both claw screws ${turns}, as foreseen, before tuning up.`,
		why: 'The new strings want other spring pull; claw turns detune everything, so they come first.',
		how: (foreseen: string) => [
			`Foreseen in all: ${foreseen}. What is left is turned after a look at the plate.`,
			'Both alike, an eighth at a time in turn. Turned another amount? Type it: 3/8, or 1/2 looser.',
			'Leave enough thread in the wood: a screw backed too far out pulls loose.',
		],
		prompt: 'turns made, both screws',
		example: '1/2 tighter',
		enter: 'turned as told',
		later: 'turn the claw later',
	},
	unsupport: {
		headline: 'Take the support out from under the bridge.',
		why: 'All strings are near pitch, so the bridge can float again; it goes where the balance puts it.',
		how: [
			'Ease it out slowly, a hand on the tail, arm side away from your face.',
			'From then on strings affect each other again.',
		],
		enter: 'support is out',
	},
	release: {
		headline: (turns: string) => `Turn both claw screws ${turns}, so that the bridge comes out as wished.`,
		why: 'On its support nothing moves yet; with this done it stands as wished the moment the support is out.',
		how: [
			'Both alike, an eighth at a time in turn. Turned another amount? Type it: 3/8, or 1/2 looser.',
			'Leave enough thread in the wood: a screw backed too far out pulls loose.',
		],
		prompt: 'turns made, both screws',
		example: '1/2 tighter',
		enter: 'turned as told',
	},
	supportWay: {
		headline: 'Every string is far off. Choose how to bring them back.',
		why: 'Held level, no string moves another; let go, they go off together, and the claw brings them back together.',
		labels: {
			support: 'support under the level bridge until all are at pitch',
			floating: 'bridge left floating, each string set with the others in mind',
		},
		cost: (turns: string) => `about ${turns} turns in all`,
		support: {
			headlineLevel: 'Bring the plate level and put a support under it.',
			headline: (height: string) => `Bring the tail ${height} and put a support under it.`,
			why: 'Strings tuned while the plate stands where it is wanted are right when it stands there again.',
			how: [
				'Tail low: lift it with a thumb; tail high: press it down; then card and paper under it.',
				'It must hold both ways: a second block behind the first, or between block and body.',
				'Measure there as the plate is measured; a sheet of paper is 0.1 mm. Lay the ruler on a second time.',
				'While it is in, the bridge is blocked: strings do not affect each other.',
			],
			enter: 'support is in',
		},
		lift: {
			/** What the support that stays in keeps the tail from, and so which way everything goes. */
			sides: {
				rising: {way: 'tighter', back: 'looser', other: 'up', stir: 'rise', end: 'up', gone: 'sharp'},
				falling: {way: 'looser', back: 'tighter', other: 'down', stir: 'fall', end: 'down', gone: 'flat'},
			},
			headline: (name: string, {way, stir}: LiftSide) =>
				`Turn both claw screws ${way} until ${name} just begins to ${stir}.`,
			why: 'Then springs and strings are even where the plate stands now, and nothing moves when it is let go.',
			how: (name: string, cents: string, from: string, {other, end, gone, back}: LiftSide) => [
				`Take away what keeps the tail ${other}; leave in what keeps it from ${from}.`,
				`Turn both alike, an eighth at a time, and pluck between: ${name} shows ${cents} now.`,
				`Stop at the first half cent ${end}: the support is loose then. Take it out.`,
				`All ${gone} as soon as the tail is free? It leaned the other way: ${back}, until that string is back.`,
			],
			thread: 'Leave enough thread in the wood: a screw backed too far out pulls loose.',
			about: (turns: string) => `About ${turns}; nobody need count, the string tells.`,
			enter: 'support is loose and out',
			asItIs: 'out as it is',
		},
		listen: 'The bridge floats again: one pluck of each string shows how near they stayed.',
		clawWhy: 'All strings were right where the plate was held; the claw brings it back there, and them with it.',
	},
	supportOut: 'support is out',
	askSupport: 'Strings are not all near pitch: the tail may jump up or drop. Take the support out now?',
	nearEnough: {
		headline: 'Near enough for now. Go on to the plate.',
		why: 'Claw turns detune everything: plate first, then one pass brings pitch and level together.',
		how: ['To turn a string all the same type its number and what the tuner then shows: 5: -3'],
	},
	done: {
		headline: 'All strings are at pitch. Go on.',
		why: (worst: string, error: string, tolerance: string, probability: string) =>
			`Worst is ${worst} at ${error} cents; all within ${tolerance} cents: ${probability} sure.`,
		beforeClamps: 'Nearer than this is for the fine tuners: the clamps will move every string by some cents.',
		headlineNear: 'This is as near as the plan brings them. Go on, or turn one once more.',
		again: (string: string) => `To turn string ${string} once more type its number and a colon: ${string}:`,
	},
} as const;
