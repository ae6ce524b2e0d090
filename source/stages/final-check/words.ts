import type {Motion} from '../../session/report/arm-proof.ts';

/** Every sentence of the final check. */
export const words = {
	title: 'Final check',
	look: {
		headline: 'Go over everything that a hand has to tell.',
		why: 'A set-up is finished when it stays.',
		items: {
			clamps: 'clamp blocks snug',
			saddles: 'saddle screws snug',
			fineTuners: 'fine tuners with travel left both ways',
			arm: 'tremolo arm fitted and firm',
		},
	},
	open: {
		why: 'What the tuner says at the end is what counts.',
		all: (count: number) => `All at once: ${count} readings on one line, string 1 first.`,
	},
	fretted: {
		headline: (name: string) => `Press ${name} at the 12th fret and pluck it.`,
		why: 'The fretted 12th against the open string: the proof of the intonation.',
		how: ['Straight down, playing pressure, no sideways bend.'],
		prompt: (name: string) => `fretted 12th of ${name}, tuner shows`,
		example: '+1',
	},
	plate: {
		headline: 'Measure the tail edge of the plate once more.',
		why: 'In tune and not level is only half a set-up.',
		how: ['As before: 0.3, 0.3 low, level, or both gaps with the posts first: 7.2 / 7.5.'],
		prompt: 'tail height above level',
		example: 'level',
	},
	motions: {
		dive: {
			headline: 'Dive with the arm until the strings hang slack, and let it come back.',
			why: 'A bridge that does not come home after a dive will not stay in tune.',
		},
		'pull-up': {
			headline: 'Pull the arm up as far as it goes, gently, and let it come back.',
			why: 'The other way loads the knife edges differently; both must come home.',
		},
		bend: {
			headline: 'Bend string 3 a whole tone at the 12th fret and let it come back.',
			why: 'A bend tips the bridge too, and pulls at windings and clamps.',
		},
	} satisfies Record<Motion, {readonly headline: string; readonly why: string}>,
	motionHow: ['Face out of the line of the strings.', 'Afterwards pluck every string without touching anything else.'],
	moved: 'done',
	afterMotion: 'Read after the movement: what it left behind tells the cause.',
	cautions: ['A string may break in a dive or a pull-up: eye protection on, face out of the line of the strings.'],
	leaveOut: 'leave this out',
	done: {
		headline: 'The final check is done. Go on to the set-up sheet.',
		whyNone: 'The arm was left out.',
	},
	motionNames: {dive: 'dive', 'pull-up': 'pull-up', bend: 'bend'} satisfies Record<Motion, string>,
	says: (motion: string, leftover: string) => `After the ${motion}: ${leftover}.`,
} as const;
