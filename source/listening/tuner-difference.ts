import {centsBetween} from '../music/pitch.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {HeardTone} from './estimate-tone.ts';

/** A tuner that differs by less than this from the truth needs no explaining, cents. */
const explainedCents = 0.5;

/**
 * What a tuner that looks for the sound's period shows beyond the first
 * partial, cents: positive where stiff partials pull it sharp. Undefined where
 * it would have been lost, or differs too little to be worth a word.
 */
export function tunerDifferenceCents(tone: HeardTone): number | undefined {
	if (tone.periodTunerHz === undefined) return undefined;
	const cents = centsBetween(tone.periodTunerHz, tone.hz);
	return Math.abs(cents) < Math.max(explainedCents, 3 * tone.sdCents) ? undefined : cents;
}

/** Fretted 12th minus 12th-fret harmonic, both heard. */
export interface HeardIntonation {
	/** Of first partials: what the saddle must answer, cents. */
	readonly cents: Estimate;
	/** What a tuner that looks for the period would have made of the same two plucks; undefined where it would have been lost. */
	readonly periodTunerCents?: number;
}

/** The intonation in two plucks of one string. */
export function heardIntonation({
	harmonic,
	fretted,
}: {
	readonly harmonic: HeardTone;
	readonly fretted: HeardTone;
}): HeardIntonation {
	const cents = {mean: centsBetween(fretted.hz, harmonic.hz), sd: Math.hypot(fretted.sdCents, harmonic.sdCents)};
	if (fretted.periodTunerHz === undefined || harmonic.periodTunerHz === undefined) return {cents};
	return {cents, periodTunerCents: centsBetween(fretted.periodTunerHz, harmonic.periodTunerHz)};
}

/**
 * Stiffness coefficient of the open string, from a tone sounded `semitonesUp`
 * above it: B goes as one over length squared, and a 12th-fret harmonic counts
 * every second partial, which comes to the same factor of four.
 */
export function openStiffness({law, stiffnessSd}: HeardTone, semitonesUp: number): Estimate {
	const factor = 4 ** (semitonesUp / 12);
	return {mean: law.stiffness / factor, sd: stiffnessSd / factor};
}
