/** Every sentence of the intonate stage. */
export const words = {
	title: 'Intonate',
	ways: {
		headline: 'Choose how the saddles will be set.',
		why: (tolerance: string) =>
			`Each fretted 12th is to agree with its harmonic within ${tolerance} cents; either way computes the distance.`,
		together: 'read all strings, then move all saddles at once',
		togetherNote: (strings: number) =>
			`one slack period, one guided pass: about ${strings} saddle moves and ${strings + 2} turns if all are off`,
		single: 'string by string',
		singleNote: (strings: number) =>
			`each slackened and brought back by itself: about ${strings} saddle moves and ${2 * strings} turns if all are off`,
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
		secondWhy: 'A finger never presses twice alike; two plucks are averaged before a saddle is moved.',
		again: 'Read again after the move: one move should have done it.',
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
	plan: (string: number, travel: string, left: string) => `string ${string}: ${travel}${left}`,
	travelLeft: (left: string) => `, ${left} left after that`,
	travelUnknown: ', check that the saddle has that much left',
	unreachable: (best: string) =>
		`, out of reach: ${best} is the end of its travel; try the other threaded hole, or another gauge`,
	withinTuner: 'That is within what your tuner can tell.',
	asItIs: 'leave it as it is',
	otherWay: 'the other way',
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
		back: 'back',
	},
} as const;
