import {nearestNote} from '../../music/note.ts';
import {centsBetween, frequencyHz, midiFromHz} from '../../music/pitch.ts';
import {type ReadableString, type ReadingContext, semitonesUp, soundedHz} from './reading-context.ts';
import type {Token} from './reading-tokens.ts';

/** Cents of a pluck against the target sounded the asked way; −∞ for 0 Hz. */
export function centsOf(token: Token, row: ReadableString, context: ReadingContext): number {
	const targetHz = soundedHz(row, context);
	switch (token.given) {
		case 'cents':
			return token.cents;
		case 'hertz':
			return token.hz > 0 ? centsBetween(token.hz, targetHz) : Number.NEGATIVE_INFINITY;
		case 'note':
			return token.cents + centsBetween(frequencyHz(token.midi, context.referenceAHz), targetHz);
		case 'class': {
			// The octave is chosen with the cents in it, so that "Eb +90" is the E flat just below E.
			// A string on its way up is taken to stand below its target rather than far above.
			const onItsWay = row.fromSlack ? 4 : 0;
			const near = midiFromHz(targetHz, context.referenceAHz) - token.cents / 100 - onItsWay;
			const {midi} = nearestNote({name: token.note, chroma: token.chroma}, near);
			return token.cents + centsBetween(frequencyHz(midi, context.referenceAHz), targetHz);
		}
	}
}

/** Given as a pitch, an octave (or a fret's worth) too low, as if the open string had been plucked. */
export function soundsOpen(cents: readonly number[], given: Token['given'], context: ReadingContext): boolean {
	if (context.how === 'open' || (given !== 'hertz' && given !== 'note')) {
		return false;
	}

	const up = 100 * semitonesUp(context);
	return cents.every(each => Math.abs(each + up) <= (up === 1200 ? 600 : 50));
}
