/** Every sentence of the unlock stage. */
export const words = {
	title: 'Unlock',
	ways: {
		headline: 'Choose how the strings will be changed.',
		why: 'Taking strings off lets the bridge fall back; this keeps it where it is.',
		stay: 'strings stay on',
		stayNote: 'nothing is replaced',
		one: 'one string at a time',
		oneNote: 'the others hold the bridge; no support needed',
		support: 'all off, bridge supported',
		supportNote: 'a block of card or wood under it; strings then do not affect each other',
	},
	support: {
		headline: 'Put support under the bridge so that it cannot drop back.',
		why: 'Without strings the springs pull the block down and the tail into the body.',
		how: [
			'Folded card or soft wood between the tail and the body, or behind the block.',
			'As thick as the gap is now: it should hold the bridge where it stands, not lift it.',
			'While it is in, the bridge is blocked: strings do not affect each other.',
		],
		enter: 'support is in',
	},
	open: {
		headline: 'Loosen the clamp blocks at the nut and lift them off.',
		why: 'While they are tight the pegs turn nothing but the string behind the nut.',
		how: [
			'A 3 mm hex key is usual: right size, fully seated; small screws strip.',
			'Half a turn each in rotation, so that no block is left holding alone.',
			'Keep blocks and screws in order: each goes back where it was.',
		],
		enter: 'clamps are off',
	},
	centre: {
		headline: 'Set every fine tuner to the middle of its travel.',
		why: 'After the clamps are tight again, fine tuners are all you have, both ways.',
		how: ['Count the turns from end to end on one, then set them all to half of that.'],
		enter: 'all at mid-travel',
	},
	remove: {
		headline: (name: string) => `Slacken ${name} until it hangs loose, then take it off.`,
		why: 'Loosen before you cut: a tight string whips. The others go sharp until it is back.',
		how: ['Loosen, then cut or unwind, holding both ends. Leave the others alone.'],
		enter: 'it is off',
	},
	raise: {
		headline: (name: string) => `Turn ${name} up to about its pitch.`,
		why: 'Near is near enough: it takes its share of the pull again, so the bridge comes back.',
		how: ['Within half a semitone will do; tuning comes afterwards.'],
		prompt: (name: string) => `after turning ${name}, tuner shows`,
		enter: 'about at pitch',
	},
	removeAll: {
		headline: (names: string) => `Slacken ${names} until loose, then take off.`,
		why: 'The support holds the bridge, so the order does not matter.',
		how: ['Loosen before you cut, holding both ends.', 'Only some of them? Type their numbers, like 1 3 6.'],
		enter: 'all off',
	},
	fitAll: {
		headline: (names: string) => `Fit the new ${names} and wind until each just sounds.`,
		why: 'The bridge stays blocked until all are near pitch.',
		how: ['Seat each end in its saddle first: snug, not hard.', 'Only some of them? Type their numbers, like 1 3 6.'],
		enter: 'all on',
	},
	whichPrompt: 'string numbers, or Enter for all',
	done: {
		headline: 'Unlocked. Go on to tuning.',
		blocked: 'The bridge is blocked: strings do not affect each other until the support comes out.',
		free: 'The bridge floats: from here every string you turn moves the others.',
	},
	notStrings: (text: string, allowed: string) =>
		`Read “${text}”: not string numbers of this step. Type some of ${allowed}, for example ${allowed.split(' ')[0]}.`,
	cautions: [
		'Eye protection on; face out of the line of the strings; string ends are sharp.',
		'The maker’s own instructions come first, then a qualified technician; this is advice.',
		'Protect the finish and support the neck.',
	],
} as const;
