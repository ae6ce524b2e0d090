import type {TuningReason} from '../../session/bench.ts';

/** Sentences of what several stages ask for: turning, plucking, pulling, going on. */
export const reasonWords: Readonly<Record<TuningReason, string>> = {
	'never-read': 'Nobody has read this string yet; the plan needs to know where it stands.',
	uncertain: 'The others have moved it through the bridge; one pluck says how far.',
	'teaches-most': 'This one pluck says most about how your bridge answers.',
	'prove-result': 'It should be at pitch now; this pluck proves it.',
	'far-off': 'It is furthest out and moves the others most, so it goes first.',
	'next-in-plan': 'Set it here now; the strings still to come will bring it to pitch.',
	strength: 'The whole way at once would strain this string, so it goes up in steps.',
	slack: 'All the way down it would hang loose; the bridge, coming down too, brings the rest.',
	settling: 'A new string gives for a while; pull the slack out of it now, not on stage.',
	surprise: 'The last reading did not fit; one more pluck tells what happened.',
};

/** When a support is in, nothing has to be aimed off. */
export const blockedReason = 'The bridge is blocked: no string moves another, so go straight there.';

export const guided = {
	turn: (name: string, way: string, aim: string) => `Turn ${name} ${way} until your tuner shows ${aim}.`,
	gentle: (name: string, way: string, aim: string) => `Turn ${name} ${way} only to ${aim} for now.`,
	up: 'up',
	down: 'down',
	read: (name: string) => `Pluck ${name}, do not turn it.`,
	stretch: (name: string) => `Pull ${name} gently away from the body along its length, then pluck it.`,
	afterTurning: (name: string) => `after turning ${name}, tuner shows`,
	onlyPlucked: (name: string) => `only plucked ${name}, tuner shows`,
	afterStretching: (name: string) => `after pulling ${name}, tuner shows`,
	comeUp: 'Come up to it from below; if you pass it, go back under and up again.',
	anotherPlucked: 'Another string, only plucked: like 5: -12. Turned it? Press t first.',
	anotherTurned: 'Another string, turned: like 5: -12. Only plucked? Press t first.',
	take: 'To turn another string next, type 5: and Enter. It broke? Type broke.',
	softly: 'Pluck softly and read after the first second; a hard pluck reads sharp.',
	stretchHow: 'A hand’s breadth at a time, gently, face away from the string.',
	taken: 'You chose this string; the plan follows you.',
	toggleToPlucked: 'I only pluck',
	toggleToTurned: 'I turned it',
} as const;

/** Shown once wherever strings are tightened. */
export const stringCaution =
	'Wear eye protection and keep your face out of the line of the strings; a string can break below its rated strength.';

/** Both claw screws turned until one string is right. */
export const clawByEar = {
	tighter: 'tighter',
	looser: 'looser',
	headline: (way: string, name: string, cents: string) =>
		`Turn both claw screws ${way} until ${name} shows ${cents} cents.`,
	how: (turns: string, isHair: boolean) => [
		`About ${turns}: both alike, ${isHair ? 'a touch' : 'an eighth'} at a time in turn, and pluck between.`,
		'Nobody need count the turns: the string tells.',
		'Leave enough thread in the wood: a screw backed too far out pulls loose.',
	],
	prompt: (name: string) => `claw turned, ${name} shows`,
	pegs: 'with the pegs',
} as const;

export const fit = {
	headline: (name: string, gauge: string) => `Fit the new ${name}, ${gauge}, and wind it until it just sounds.`,
	why: 'Straight windings and a seated end now save a slipping string later.',
	how: [
		'Clamp or seat the end in the saddle first: snug, not hard.',
		'Two or three neat windings downwards on the post, no crossing.',
	],
	/** What taking it off, or having lost it, comes to. */
	likeOne: 'With a like one on and at pitch the others come back by themselves.',
	without: (turns: string, tail: string) => `Doing without: tail ${tail}, both claw screws ${turns}, a pass.`,
	clampsFirst: 'Take the clamp blocks off first.',
	enter: 'it is on',
} as const;

export const going = {
	on: 'go on',
	anyway: 'go on anyway',
	ask: 'This step is not finished. Go on all the same?',
} as const;

export const checklist = {
	prompt: 'number of an item, or Enter',
	example: '2',
	all: 'all of it is so',
	notAnItem: (text: string, count: number) =>
		`Read “${text}”: not the number of an item. Type 1 to ${count} to tick or untick one, for example 2.`,
} as const;

/** How the tail height is measured, wherever it is asked. */
export const plateMeasure = {
	how: (arm: string) => [
		`Gap under the tail edge (${arm} behind the knife edge) less that at the posts.`,
		'Type the difference: 0.8, 0.5 low, level; or both gaps, posts first: 7.2 / 8',
		'Or an angle from a small gauge: 1.2 deg, tail high positive.',
		'Twisted plate? Measure both sides: treble 0.8 bass 0.4.',
	],
	prompt: 'tail height above level',
	example: '0.8',
} as const;

/** Pull-up and dive, cents, by string. */
export const arm = {
	all: (list: string) => `Arm pulled up / pushed down to where the plate stops, cents by string: ${list}.`,
	each: (string: number, up: string, down: string) => `${string}: ${up} / ${down}`,
	slack: 'slack',
} as const;

export const plate = {
	oneSideTwice: (text: string) => `Read “${text}”: one side twice. Type both, for example treble 0.8 bass 0.4.`,
} as const;

export const allStrings = {
	at: (name: string, said: string) => `At ${name}: ${said}`,
} as const;

export const surprise = {
	unexpected: (expected: string, read: string) =>
		`Expected ${expected}, read ${read}: mistyped, another string, or did something slip?`,
	orSlipped: (typed: string) => `If this string slipped, add an s: ${typed.trim()} s`,
} as const;

export const choice = {
	prompt: 'number of a choice, or Enter',
	notAChoice: (text: string, count: number) => `Read “${text}”: not a choice here. Type 1 to ${count}, for example 1.`,
} as const;

export const enterOnly = (text: string, label: string) =>
	`Read “${text}”, but nothing is asked here. Clear the line; Enter alone means: ${label}.`;
