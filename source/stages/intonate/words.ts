import type {SaddlePlan} from '../../planning/saddle-plan.ts';
import type {SaddleWay} from '../../planning/saddle-ways.ts';
import type {PatternCause} from '../../session/saddle-row.ts';

type SaddleCheck = NonNullable<SaddlePlan['suspicion']>['check'];
type SaddleCause = NonNullable<SaddlePlan['suspicion']>['cause'];

/** Every sentence of the intonate stage. */
export const words = {
	title: 'Intonate',
	ways: {
		headline: 'Choose how the saddles will be set.',
		why: (tolerance: string) =>
			`Each fretted 12th is to agree with its harmonic within ${tolerance} cents; the distances are computed in each way.`,
		labels: {
			'all-at-once': 'all at once, floating: read all, move all, one pass',
			'string-by-string': 'string by string',
			blocked: 'all at once, the bridge on a support where it floats',
		} satisfies Record<SaddleWay, string>,
		cost: (adjustments: string, periods: string) => `about ${adjustments} adjustments if all are off, slack ${periods}`,
		costFromHere: (adjustments: string, periods: string) =>
			`about ${adjustments} adjustments from here, slack ${periods}`,
		times: (count: string) => `${count} times`,
		once: 'once',
		changeOver: 'An adjustment is a slackening, a saddle set or a turn. You can change over at any time.',
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
	plucks: (count: string) => `Wanted at this place: ${count} of each kind, as many on a line as you like.`,
	read: {
		average: (mean: string, plucks: string) => `${mean} (${plucks})`,
		line: (harmonic: string, fretted: string, error: string) =>
			`Read: harmonic ${harmonic}, fretted ${fretted}; error ${error} cents.`,
	},
	misled: (tuner: string, heard: string, travel: string) =>
		`Heard to the first partials it is ${heard}; a tuner that follows the sound’s period would show ${tuner} cents and set the saddle ${travel} of its place.`,
	against: {
		harmonic: (error: string) => `${error} of the harmonic`,
		wish: (error: string, wish: string) => `${error} of the wished ${wish}`,
		inTune: 'in tune with the harmonic',
		atWish: (wish: string) => `at the wished ${wish}`,
	},
	higher: 'higher',
	lower: 'lower',
	forDistance:
		'It must be moved; a finger never presses twice alike, so the distance is taken from more than one pluck.',
	closeCall: 'Too close to call: a finger never presses twice alike, so more plucks are averaged.',
	check: {
		why: (cause: string, chance: string) => `What was read fits badly: perhaps ${cause} (${chance} likely).`,
		'press-lightly': (name: string) => `Press ${name} lightly at the 12th fret, straight down, and pluck it.`,
		'harmonic-again': (name: string) => `Sound the 12th-fret harmonic of ${name} once more.`,
		tells: {
			'press-lightly':
				'Two or three light plucks, finger lifted between. Flatter and alike now: it was bent. As sharp as before: saddle or screw.',
			'harmonic-again': 'Flatter than before: the string slipped. The same as before: it did not.',
			'measure-saddle':
				'Forward of where it was set: it crept, or went the other way. Where it was set: look to string and finger.',
		} satisfies Record<SaddleCheck, string>,
		shouldStand: (place: string) => `By what was moved it should stand ${place} behind the line.`,
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
		why: 'Held where it floats, it stays put; held elsewhere, readings are void.',
		how: [
			'Folded card or soft wood between the tail and the body, slid in, not pressed in.',
			'Then two strings tell how well it holds; all readings of intonation are taken without it.',
		],
		enter: 'support is in',
	},
	clawWhy: 'All went off together, with the plate: one touch of the claw brings them back, where pegs move each other.',
	probe: 'Nothing was turned: this pluck tells how well the support holds the bridge.',
	held: {
		level: 'The support holds the bridge where it floats, as far as two strings tell.',
		lifted:
			'Both plucks went flat: the support lifts the tail. Make it thinner, then j; or go on: it is reckoned with.',
		'let-down':
			'Both plucks went sharp: the support lets the tail down. Make it thicker, then j; or go on: it is reckoned with.',
	},
	supportChanged: 'support changed',
	bringUp: 'On the support no string moves another. It will be in tune once the support is out.',
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
		why: (error: string, tolerance: string) => `Fretted 12th is ${error}; wanted within ${tolerance} cents.`,
		how: [
			'Loosen the hold-down screw only now, on the slack string; a 2 mm hex key is usual, fully seated.',
			'Tighten it snug, not hard: loose saddles creep, and the reading with them.',
			'Moved it another distance? Type what you did: 1.2, or 0.5 forward.',
		],
		prompt: (name: string) => `saddle of ${name} moved`,
		example: '1.2 back',
		enter: 'moved as told',
	},
	meanwhile: {
		floating: 'The others stand sharp meanwhile and come back with the slack ones: do not chase them.',
		most: (name: string, cents: string) =>
			`Meanwhile ${name} stands at ${cents} cents; it will return: do not chase it.`,
		supported: 'The support holds the others; none is to be tuned now.',
	},
	opposite: (asked: string, read: string) =>
		`Asked for ${asked}, read ${read}, the other way: that makes the error larger. Is that what was done?`,
	planned: (string: number, travel: string) => `${string}: ${travel}`,
	plan: (moves: string) => `Saddle moves to come: ${moves}.`,
	travelUnknown: (string: number) => `String ${string}: look first whether the saddle has that much travel left.`,
	otherHole: {
		front: (string: number) => `String ${string}: with the screw in the front hole.`,
		back: (string: number) => `String ${string}: with the screw in the back hole.`,
	},
	holeUnknown: {
		front: (string: number) => `String ${string}: in reach with the screw in the front hole.`,
		back: (string: number) => `String ${string}: in reach with the screw in the back hole.`,
	},
	out: {
		short: {
			back: (string: number, wanted: string, left: string, cents: string) =>
				`String ${string}: ${wanted} wanted, to the back end there is ${left}; that leaves ${cents} cents.`,
			front: (string: number, wanted: string, left: string, cents: string) =>
				`String ${string}: ${wanted} wanted, to the front end there is ${left}; that leaves ${cents} cents.`,
		},
		atEnd: {
			back: (string: number, wanted: string, cents: string) =>
				`String ${string}: ${wanted} wanted, but it stands at its back end; that leaves ${cents} cents.`,
			front: (string: number, wanted: string, cents: string) =>
				`String ${string}: ${wanted} wanted, but it stands at its front end; that leaves ${cents} cents.`,
		},
		action: (mm: string, way: string) => `action ${mm} ${way}`,
		gauge: (gauge: string, cents: string) => `gauge ${gauge} leaves ${cents}`,
		else: (ways: string) => `What else helps: ${ways}. Both threaded holes are counted in.`,
		nothingElse:
			'No usual gauge or action mends it; the end of the travel is the best to be had. Both holes are counted in.',
	},
	verdict: {
		within: (string: number, cents: string) => `String ${string}: ${cents} cents, within tolerance.`,
		withinBoth: (string: number, cents: string, tell: string) =>
			`String ${string}: ${cents} cents, within tolerance and within what the tuner tells (${tell}).`,
		untold: (string: number, cents: string, tell: string) =>
			`String ${string}: ${cents} cents, closer than tuner and finger can tell (${tell}).`,
		outOfTravel: (string: number, cents: string) => `String ${string}: ${cents} cents, at the end of its travel.`,
		accepted: (string: number, cents: string) => `String ${string}: ${cents} cents, left as it is at your wish.`,
		unread: (names: string) => `Not read: ${names}.`,
	},
	frets: {
		key: 'other frets',
		headline: (name: string, fret: number) => `Press ${name} at fret ${fret} and pluck it.`,
		why: 'Several frets tell a saddle error from what no saddle can mend.',
		harmonicWhy: 'Every fretted note is held against it, so it is read anew since something was touched.',
		other: 'Another fret: fret 9: +3. Another string: 4: and Enter.',
		fretPrompt: (name: string, fret: number) => `${name} at fret ${fret}, tuner shows`,
		prompt: 'another fret, another string, or Enter',
		example: 'fret 9: +3',
		enter: 'back to the saddles',
		tooFew: (name: string) => `Three frets at least are needed to tell anything about ${name}.`,
		read: (list: string) => `Against the harmonic: ${list}.`,
		at: (fret: number, cents: string) => `fret ${fret} ${cents}`,
		toldWhy: 'Judged by how well each story fits what was read.',
		undecided: 'The frets fit more than one story; more plucks or frets will tell.',
		mends: 'The frets agree with the saddle alone; nothing else is amiss.',
		beyondSaddle: (cause: string) => `No saddle mends this alone: ${cause}.`,
		chance: (cause: string, chance: string) => `${chance}: ${cause}`,
		best: (travel: string, left: string) => `Least is left with the saddle ${travel}: ${left}.`,
		farther: 'too far from',
		nearer: 'too near to',
		patterns: {
			saddle: 'the saddle alone',
			action: (mm: string, way: string) => `the action is ${mm} ${way} than entered`,
			'nut-height': (mm: string, way: string) => `the nut is ${mm} ${way} than entered`,
			'nut-place': (mm: string, way: string) => `the nut stands ${mm} ${way} the first fret`,
			'one-fret': (fret: number, cents: string) => `fret ${fret} is worn, lifted or misplaced (${cents} cents)`,
			'old-string': 'no order in it: an old, worn or dirty string',
		} satisfies Record<PatternCause, unknown>,
		notAFret: (text: string) =>
			`Read “${text}”: not a note at a fret. Type the fret from 1 to 24 and what the tuner shows, for example fret 9: +3.`,
	},
	wishes: {
		key: 'offsets, travel',
		headline: 'Say where a string is wanted other than at its harmonic, or how far its saddle can go.',
		why: 'For one who presses hard, or low strings wanted a little flat; usual is 0.',
		line: (name: string, cents: string, range: string | undefined) =>
			`${name}: wanted at ${cents} cents${range === undefined ? '' : `, saddle travel ${range}`}`,
		typeCents: 'Wanted fretted 12th over the harmonic, cents: 6: -2, or all: 1.',
		typeTravel: 'Saddle travel behind the scale line, both holes: 6: travel -1 to 7.',
		prompt: 'string: cents, or Enter',
		enter: 'that is so',
		notAWish: (text: string) =>
			`Read “${text}”: neither an offset nor a travel of a string here. Type 6: -2, or 6: travel -1 to 7.`,
		notARange: (text: string) =>
			`Read “${text}”: the travel ends before it begins. Type the front end first, for example 6: travel -1 to 7.`,
	},
	endOfTravel: (string: number) => `String ${string}: the end of its travel, the best to be had here.`,
	expected: (cents: string, chance: string) =>
		`Expected afterwards: ${cents} cents against the harmonic; within tolerance ${chance}.`,
	suspicion: (cause: string, chance: string) => `What fits the readings best: ${cause} (${chance} likely).`,
	withinTuner: 'That is within what your tuner can tell.',
	asItIs: 'leave it as it is',
	otherWay: 'another way',
	accepted: (string: number) => `intonation of string ${string} left as it is`,
	done: {
		headline: 'Every string is intonated. Go on.',
		notAll: (names: string) => `All that the saddles can do is done; ${names} out of tolerance. Go on.`,
		why: (worst: string, error: string) => `Worst is ${worst}, ${error}.`,
		none: 'No string needed its saddle moved.',
	},
	notStrings: (text: string, allowed: string) =>
		`Read “${text}”: not numbers of strings to be slackened. Type some of ${allowed}, for example ${allowed.split(' ')[0]}.`,
	cautions: {
		slack: 'String slack before its saddle screw is loosened; eyes protected, face out of the line of the strings.',
		screw: 'Right key, fully seated; small screws strip. Snug, not hard.',
	},
	panel: {
		title: (was: string, now: string, to: string) =>
			`saddles from above, neck to the left: ${was} as they came, ${now} now, ${to} to go to`,
	},
} as const;
