import type {Environment} from './glyphs.ts';

/** What a piece of text means. Looks follow from it; meaning never rests on colour alone. */
export const meanings = ['plain', 'strong', 'good', 'attention', 'danger', 'quiet', 'accent', 'marked'] as const;
export type Meaning = (typeof meanings)[number];

/** Text properties as Ink takes them. */
export interface TextLook {
	readonly color?: string;
	readonly bold?: boolean;
	readonly dimColor?: boolean;
	readonly inverse?: boolean;
}

export type Theme = {readonly [M in Meaning]: TextLook};

export const colourDepths = ['none', '16', '256', 'true'] as const;
export type ColourDepth = (typeof colourDepths)[number];

/** Looks without any colour: weight, dimness and inversion only. */
const colourless: Theme = {
	plain: {},
	strong: {bold: true},
	good: {},
	attention: {bold: true},
	danger: {bold: true, inverse: true},
	quiet: {dimColor: true},
	accent: {bold: true},
	marked: {inverse: true},
};

/** The terminal's own palette, which its owner can read on its own background. */
const sixteen: Theme = {
	...colourless,
	good: {color: 'green'},
	attention: {color: 'yellow', bold: true},
	danger: {color: 'red', bold: true},
	accent: {color: 'cyan', bold: true},
};

/**
 * Places in the 256-colour palette whose luminance lies near the middle, so
 * that each has a contrast of at least 4 to 1 on black and on white alike.
 * Named by place: asked for as red, green and blue, some terminals get a
 * neighbour that is lighter. Terminals with more colours have these as well.
 */
const rich: Theme = {
	...colourless,
	good: {color: 'ansi256(29)'},
	attention: {color: 'ansi256(130)', bold: true},
	danger: {color: 'ansi256(161)', bold: true},
	quiet: {color: 'ansi256(243)'},
	accent: {color: 'ansi256(63)', bold: true},
};

export function themeFor(depth: ColourDepth): Theme {
	switch (depth) {
		case 'none':
			return colourless;
		case '16':
			return sixteen;
		case '256':
		case 'true':
			return rich;
	}
}

/**
 * How many colours to use.
 * @param bits What the stream answers for this environment: 1, 4, 8 or 24.
 * @see https://no-color.org: set and not empty means no colour.
 */
export function colourDepthOf(environment: Environment, bits: number): ColourDepth {
	if (environment.NO_COLOR || bits <= 1) return 'none';
	if (bits <= 4) return '16';
	return bits <= 8 ? '256' : 'true';
}
