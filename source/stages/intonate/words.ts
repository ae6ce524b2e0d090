import type {SaddlePlan} from '../../planning/saddle-plan.ts';
import type {SaddleWay} from '../../planning/saddle-ways.ts';

type SaddleCause = NonNullable<SaddlePlan['suspicion']>['cause'];

/** Every sentence of the intonate stage. */
export const words = {
	title: 'Intonate',
	ways: {
		headline: 'Choose how the saddles will be set.',
		why: (tolerance: string) =>
			`Each fretted 12th is to agree with its harmonic within ${tolerance} cents; the distances are computed in each way.`,
		labels: {
			'all-at-once': 'read all strings, then move all saddles at once',
			'string-by-string': 'string by string',
			blocked: 'all at once with the bridge blocked, level where it floats',
		} satisfies Record<SaddleWay, string>,
		cost: (adjustments: string) => `about ${adjustments} adjustments if all are off`,
		costFromHere: (adjustments: string) => `about ${adjustments} adjustments from here`,
	},
	harmonic: {
		headline: (name: string) => `Sound the 12th-fret harmonic of ${name}.`,
		why: 'It tells where the open string truly stands, an octave up.',
		how: [
			'Touch the string lightly right above the 12th fret, pluck near the bridge, let go.',
			'Several plucks on one line are averaged: +1 +0.5 +1.5.',
		],
		prompt: (name: string) => `harmonic of ${name}, tuner shows`,
		example: '+1',
	},
	fretted: {
		headline: (name: string) => `Press ${name} at the 12th fret and pluck it.`,
		why: 'Sharp of the harmonic: string too short, saddle goes back. Flat: forward.',
		how: [
			'Straight down behind the fret, with playing pressure, no sideways bend.',
			'Lift the finger between plucks; several on one line are averaged: +6 +5.5.',
		],
		prompt: (name: string) => `fretted 12th of ${name}, tuner shows`,
		example: '+6 +5.5',
		second: (name: string) => `Lift the finger, press ${name} at the 12th fret again and pluck it.`,
		proof: 'Read again after the move: one move should have done it.',
	},
	closeCall: 'Too close to call: a finger never presses twice alike, so more plucks are averaged.',
	check: {
		why: (cause: string, chance: string) => `What was read fits badly: perhaps ${cause} (${chance} likely).`,
		'press-lightly': (name: string) => `Press ${name} at the 12th fret lightly and straight down, then pluck it.`,
		'harmonic-again': (name: string) => `Sound the 12th-fret harmonic of ${name} once more.`,
	},
	causes: {
		'as-expected': 'all went as told',
		crept: 'the saddle crept towards the neck; tighten its screw',
		slipped: 'the string slipped between two readings',
		bent: 'the string was bent sideways or pressed hard',
		'wrong-way': 'the saddle went the other way',
	} satisfies Record<SaddleCause, string>,
	place: {
		headline: (name: string) => `Measure how far the saddle of ${name} stands behind the scale line.`,
		why: 'Whether the saddle can go where it should depends on where it is.',
		how: [
			'Scale line: nut to the 12th fret, doubled. From there to where the string breaks over the saddle.',
			'Behind the line, away from the neck: 3.2. In front of it: -0.5.',
		],
		prompt: (name: string) => `saddle of ${name} behind the line`,
		example: '3.2',
	},
	support: {
		headline: 'Put support under the bridge, just touching: neither lift it nor let it down.',
		why: 'Blocked where it floats, the bridge stays while strings are slack and no pitch runs away.',
		how: ['Folded card or soft wood between the tail and the body; then two strings tell how well it holds.'],
		enter: 'support is in',
	},
	probe: 'This pluck tells how well the support holds the bridge.',
	unsupport: {
		headline: 'Take the support out from under the bridge.',
		why: 'All strings are back at pitch; what is left to correct shows when the bridge floats.',
		enter: 'support is out',
	},
	slacken: {
		headline: (names: string) => `Slacken ${names} until loose, saddle screws still tight.`,
		why: 'The others go sharp meanwhile and come back with it: do not chase them.',
		how: 'Only some of them? Type their numbers, like 1 3; the rest stay as they are.',
		prompt: 'numbers, or Enter for all',
		enter: 'slack',
	},
	move: {
		headline: (name: string, travel: string) => `Move the saddle of ${name} ${travel}.`,
		back: 'away from the neck',
		forward: 'towards the neck',
		why: (error: string, tolerance: string) =>
			`Fretted 12th is ${error} of the harmonic; wanted within ${tolerance} cents.`,
		how: [
			'Loosen the hold-down screw only now, on the slack string; a 2 mm hex key is usual, fully seated.',
			'Tighten it snug, not hard: loose saddles creep, and the reading with them.',
			'Moved it another distance? Type what you did: 1.2, or 0.5 forward.',
		],
		prompt: (name: string) => `saddle of ${name} moved`,
		example: '1.2 back',
		enter: 'moved as told',
	},
	planned: (string: number, travel: string) => `${string}: ${travel}`,
	plan: (moves: string) => `Saddle moves to come: ${moves}.`,
	travelUnknown: (string: number) => `String ${string}: look first whether the saddle has that much travel left.`,
	otherHole: {
		front: (string: number) => `String ${string}: with the screw in the front hole.`,
		back: (string: number) => `String ${string}: with the screw in the back hole.`,
	},
	endOfTravel: (string: number) => `String ${string}: the end of its travel, the best to be had here.`,
	expected: (cents: string, chance: string) =>
		`Expected afterwards: ${cents} cents against the harmonic; within tolerance ${chance}.`,
	suspicion: (cause: string, chance: string) => `Watch for this: ${cause} (${chance} likely).`,
	withinTuner: 'That is within what your tuner can tell.',
	asItIs: 'leave it as it is',
	otherWay: 'another way',
	accepted: (string: number) => `intonation of string ${string} left as it is`,
	done: {
		headline: 'Every string is intonated. Go on.',
		why: (worst: string, error: string) => `Worst is ${worst}, ${error} of its harmonic.`,
		none: 'No string needed its saddle moved.',
	},
	notStrings: (text: string, allowed: string) =>
		`Read “${text}”: not numbers of strings to be slackened. Type some of ${allowed}, for example ${allowed.split(' ')[0]}.`,
	cautions: {
		slack: 'String slack before its saddle screw is loosened; eyes protected, face out of the line of the strings.',
		screw: 'Right key, fully seated; small screws strip. Snug, not hard.',
	},
	panel: {
		title: 'saddles from above, neck to the left; where they are and where they go',
	},
} as const;
