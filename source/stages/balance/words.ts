import type {SpringTrouble} from '../../planning/spring-advice.ts';

/** Every sentence of the balance stage. */
export const words = {
	title: 'Balance',
	measure: {
		headline: {
			first: 'Measure how high the tail edge of the plate stands above level.',
			'on-the-way': 'Measure the tail edge now, with all strings roughly at pitch.',
			proof: 'Measure the tail edge again, now that all is at pitch.',
			second: 'Measure the tail edge a second time, from the beginning.',
			'near-edge': 'Measure the tail edge once more, from the beginning.',
			wish: 'Measure the tail edge of the plate.',
		},
		why: {
			first: 'Level means the plate parallel to the body; a measure tells, the ear does not.',
			'on-the-way': 'Near pitch it shows what the claw still wants: a turn now spares a whole pass later.',
			proof: 'One claw step and one pass should have done it; this proves it.',
			second: 'Two measures are steadier than one, and the claw turns are reckoned from them.',
			'near-edge': 'It lies near the edge of what is good enough; a ruler is quicker than another pass.',
			wish: 'A measure is worth more than any belief.',
		},
	},
	springArm: {
		headline: 'How far is it from the knife edges down to the spring hooks? A ruler will do.',
		why: 'How far the plate answers its claw goes with this length; 40 mm is usual, and it stays for next time.',
		how: [
			'In the back of the body, straight: from the line of the knife edges to where the springs hook into the block.',
			'To the millimetre is enough; with no ruler at hand press Enter. Simulated, one claw turn is then enough 2 times in 3, without it 11 in 20.',
		],
		prompt: 'edge to spring hooks',
		enter: 'go on without',
	},
	claw: {
		both: (turns: string) => `Turn both claw screws ${turns}.`,
		apart: (treble: string, bass: string) => `Turn the treble claw screw ${treble}, the bass one ${bass}.`,
		why: (tail: string, wish: string) => `Left as it is the tail ends ${tail} at pitch; wanted is ${wish}.`,
		how: [
			'Both alike, an eighth at a time in turn. All goes out of tune: that is planned.',
			'More spring pull brings the tail down, less lets it up.',
			'Turned another amount? Type it: 3/8, or 1/2 looser, or treble 1/2 bass 1/4.',
			'Leave enough thread in the wood: a screw backed too far out pulls loose.',
		],
		oneByOne: 'An eighth at a time, first one screw, then the other. All goes out of tune: that is planned.',
		notTheClaw: 'The twist does not answer to the claw: look at posts, knife edges and the plate itself.',
		prompt: 'turns made, both screws',
		example: '1/2 tighter',
		enter: 'turned as told',
	},
	springs: {
		add: (count: number, springs: number) =>
			`Slacken the strings, then add ${count === 1 ? 'a spring' : `${count} springs`}: ${springs} in all.`,
		remove: (count: number, springs: number) =>
			`Slacken the strings, then take ${count === 1 ? 'a spring' : `${count} springs`} off: ${springs} left.`,
		reHook: {
			tighter: 'Slacken the strings, then hook the springs one place further out.',
			looser: 'Slacken the strings, then hook the springs one place further in.',
		},
		exchange: {
			stiffer: 'Slacken the strings, then put stiffer springs in.',
			softer: 'Slacken the strings, then put softer springs in.',
		},
		ratio: (share: string) => `Springs of about ${share} of the rate of those fitted, as many as now.`,
		troubles: {
			'thread-out': 'the claw screws would run out of thread',
			'claw-home': 'the claw would be home before the plate is level',
			'coils-touch': 'the springs would hang loose, coils touching',
			'over-drawn': 'the springs would be drawn too far',
		} satisfies Record<SpringTrouble, string>,
		why: (trouble: string, turns: string, force: string) =>
			`By turns alone ${trouble}: ${turns}, each spring pulling ${force}.`,
		afterwards: (turns: string, force: string) => `With that done: ${turns}, each spring pulling ${force}.`,
		how: [
			'Strings slack first; springs are under load and jump: hold them with a proper hook.',
			'Fitted another number? Type how many are on now. Only the claw after all: press j.',
		],
		prompt: 'springs fitted now',
		enter: 'done',
		clawAnyway: 'claw all the same',
		caution: 'Springs under load jump: strings slack first, eyes protected, a proper hook on the spring.',
	},
	cannot: {
		headline: (turns: string) => `Turn both claw screws ${turns}: that is as far as they go.`,
		why: (trouble: string) => `Level and pitch cannot both be had with what is fitted: ${trouble}.`,
		tail: (tail: string) => `At pitch the tail then stands ${tail} of what was wanted.`,
		high: (height: string) => `${height} high`,
		low: (height: string) => `${height} low`,
		pull: (share: string, way: string) => `A set or tuning with ${share} ${way} pull would stand as wanted.`,
		less: 'less',
		more: 'more',
	},
	way: {
		headline: (tail: string, wish: string) => `The plate ends ${tail} at pitch, wanted is ${wish}: choose a way.`,
		why: 'The claw has to be turned, and that moves every string: one plan for both.',
		labels: {
			support: 'hold the bridge as wished, set every string once, free it with the claw by ear',
			floating: 'turn the claw by calculation, then tune with the bridge floating',
		},
		cost: (turns: string) => `about ${turns} turns`,
	},
	onSupport: 'on a level support',
	askSupport:
		'A support holds the plate as wished while all strings are set; the claw is then turned by ear. Go back to tuning?',
	measureAgain: 'measure again',
	done: {
		headline: 'The plate stands as wished and all strings are at pitch. Go on.',
		headlineNear: 'The plate stands as near as can be had, and all strings are at pitch. Go on.',
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
