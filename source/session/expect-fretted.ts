import {fretErrorCentsAt} from '../estimation/saddle-model.ts';
import type {SaddleBelief} from '../estimation/saddle-belief.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {FretReading} from '../estimation/saddle-pattern.ts';

/**
 * How far a single fret may lie from what saddle and action foretell: wear, a nut
 * cut high, an action entered wrongly. As large as such faults are taken to be in
 * `saddle-pattern.ts`: judgement, cents.
 */
const otherFretSdCents = 5;

/**
 * What a note at a fret should read, cents from that fret's equal-tempered pitch:
 * what this fret itself read since anything was touched, else what the 12th fret
 * tells of it through the string's model.
 *
 * @param open What the harmonic (the open string, an octave up) is expected to read, tuner's noise included.
 * @param saddle Belief about this string's saddle.
 * @param fret 1 to 24.
 * @param readings Frets read since anything was touched, less the harmonic.
 * @returns Undefined until the string was read at the 12th fret or at this one.
 */
export function expectFretted(
	open: Estimate,
	saddle: SaddleBelief,
	fret: number,
	readings: readonly FretReading[],
): Estimate | undefined {
	const own = readings.find(each => each.fret === fret);
	const {pressCents} = saddle.noise;
	if (own) return {mean: open.mean + own.cents, sd: Math.hypot(open.sd, pressCents)};
	if (!saddle.isRead) return undefined;
	const {model, positionMm, errorCents} = saddle;
	const beyondTwelfth =
		fretErrorCentsAt(model, fret, positionMm.mean) - fretErrorCentsAt(model, twelfth, positionMm.mean);
	const byFret = fret === twelfth ? 0 : otherFretSdCents;
	return {
		mean: open.mean + errorCents.mean + beyondTwelfth,
		sd: Math.hypot(open.sd, errorCents.sd, pressCents, byFret),
	};
}

const twelfth = 12;
