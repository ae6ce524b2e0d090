import type {StringNumber} from '../music/string-number.ts';

type Said = (string: StringNumber, count: number) => string;

/** Why the bench does not allow something, in words: what was said, what is allowed, what to do. */
export const refusals = {
	'no-sheet': () => 'Nothing is known of this guitar yet. Fill in the intake first: strings, tuning, scale length.',
	'no-such-string': (string, count) =>
		`String ${string}: this guitar has ${count} strings, counted from the thinnest. Say 1 to ${count}.`,
	'string-off': string => `String ${string} is off the guitar. Fit it first, then turn it or read it.`,
	'off-already': string => `String ${string} is off the guitar already. Fit it, or name another string.`,
	'on-already': string => `String ${string} is on the guitar already. Take it off first, slack, then fit the new one.`,
	'not-slack': string =>
		`String ${string} is not slack. Slacken it first: the saddle screw is only loosened on a slack string.`,
	'nut-clamped': string =>
		`The nut is clamped, so the tuning machine does not reach string ${string}. Use its fine tuner, or loosen the clamp blocks first.`,
	'nut-open-already': () => 'The clamp blocks are loose already. Go on with the strings, or clamp the nut.',
	'nut-clamped-already': () =>
		'The nut is clamped already. Correct with the fine tuners, or loosen the clamp blocks first.',
	'support-in-already': () => 'The support is under the bridge already. Go on, or take it out.',
	'no-support': () => 'No support is under the bridge. Put one in first, or go on without.',
	'empty-note': () => 'The note is empty. Write at least a word, for example: second fret worn.',
	'no-stage': () => 'No stage was named. Name the one to go to, for example: intonate.',
	'no-item': () => 'Nothing was named to tick or choose. Name one of the items shown.',
} as const satisfies Readonly<Record<string, Said>>;
