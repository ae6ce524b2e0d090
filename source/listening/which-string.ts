import {centsBetween} from '../music/pitch.ts';
import type {StringNumber} from '../music/string-number.ts';
import type {Estimate} from '../numeric/estimate.ts';

/** Where one string is to be and is believed to be. */
export interface StringPlace {
	readonly string: StringNumber;
	/** Open target, Hz. */
	readonly targetHz: number;
	/** Believed open pitch now, cents from the target; undefined when never read. */
	readonly now?: Estimate;
	/** Believed pitch sounded as it is asked for, cents from its target there, where that is known better than from the open string: a fretted note. */
	readonly sounded?: Estimate;
}

/** How the string is expected to sound. */
export interface Sounding {
	/** Semitones above the open string: 0 open, 12 for the 12th-fret harmonic, the fret for a fretted note. */
	readonly semitonesUp: number;
	/** The string that was asked for, if one was. */
	readonly asked?: StringNumber;
}

export interface Candidate {
	readonly string: StringNumber;
	readonly semitonesUp: number;
	/** Cents from the target sounded that way. */
	readonly cents: number;
	readonly probability: number;
}

/**
 * A string, or a question. Why it is doubtful: `far-from-all` beliefs; near to
 * more than one (`between`); clearly `another-string` than was asked for;
 * `played-otherwise` (open where a harmonic was asked, or the reverse).
 */
export type StringVerdict =
	| ({readonly kind: 'string'} & Candidate)
	| {
			readonly kind: 'doubtful';
			readonly why: 'far-from-all' | 'between' | 'another-string' | 'played-otherwise';
			readonly candidates: readonly Candidate[];
	  };

/** Certainty without which a string is asked about. */
const sure = 0.99;
/** Farthest from its belief that a string is still taken, standard deviations. */
const farthest = 4;
/** What a belief may leave out, cents: handling, warmth. */
const slackCents = 2;
/** A string never read: most come in near pitch, some slack or tuned otherwise. Share and one standard deviation, cents. */
const neverRead = [
	{share: 0.6, sd: 60},
	{share: 0.4, sd: 400},
] as const;
/** How often a string is not where it is believed (slipped, mistaken earlier), and then anywhere within an octave up or down. */
const strayShare = 0.01;
const strayDensity = strayShare / 2400;
/** Weight of the string asked for against any other (one pluck in eight or so is of a wrong string), and of the way of playing asked for against another. */
const askedWeight = 40;
const otherwiseWeight = 0.02;

/** Decides which string sounded, or that it must be asked. */
export function whichString(
	heard: {readonly hz: number; readonly sdCents: number},
	places: readonly StringPlace[],
	{semitonesUp, asked}: Sounding,
): StringVerdict {
	const hypotheses = places.flatMap(place =>
		[...new Set([semitonesUp, 0, 12])].map(up => {
			const cents = centsBetween(heard.hz, place.targetHz * 2 ** (up / 12));
			const now = (up === semitonesUp ? place.sounded : undefined) ?? place.now;
			const {mean} = now ?? {mean: 0};
			const beliefs = now ? [{share: 1, sd: now.sd}] : neverRead;
			let density = Math.abs(cents) < 1200 ? strayDensity : 0;
			let off = Number.POSITIVE_INFINITY;
			for (const {share, sd} of beliefs) {
				// A fretted note may lie some cents off the open one: that is what intonation is about.
				const spread = Math.hypot(sd, heard.sdCents, slackCents, up === 0 ? 0 : 6);
				const here = (cents - mean) / spread;
				density += ((1 - strayShare) * share * Math.exp(-0.5 * here * here)) / (spread * Math.sqrt(2 * Math.PI));
				off = Math.min(off, Math.abs(here));
			}

			const weight = (place.string === asked ? askedWeight : 1) * (up === semitonesUp ? 1 : otherwiseWeight);
			return {string: place.string, semitonesUp: up, cents, off, weight: weight * density};
		}),
	);
	const total = hypotheses.reduce((sum, h) => sum + h.weight, 0);
	if (!(total > 0)) return {kind: 'doubtful', why: 'far-from-all', candidates: []};
	const ranked = [...hypotheses].sort((a, b) => b.weight - a.weight);
	const candidates = ranked
		.map(
			({string, semitonesUp, cents, weight}): Candidate => ({string, semitonesUp, cents, probability: weight / total}),
		)
		.filter((c, i) => c.probability > 0.02 || i === 0);
	const best = ranked[0]!;
	if (best.off > farthest) return {kind: 'doubtful', why: 'far-from-all', candidates};
	if (best.weight / total < sure) return {kind: 'doubtful', why: 'between', candidates};
	if (best.semitonesUp !== semitonesUp) return {kind: 'doubtful', why: 'played-otherwise', candidates};
	if (asked !== undefined && best.string !== asked) return {kind: 'doubtful', why: 'another-string', candidates};
	return {kind: 'string', ...candidates[0]!};
}

/** First partials to expect, for `HearingHints`: every string, open and an octave up. */
export function believedHz(places: readonly StringPlace[]): readonly number[] {
	return places.flatMap(({targetHz, now}) => {
		const hz = targetHz * 2 ** ((now?.mean ?? 0) / 1200);
		return [hz, 2 * hz];
	});
}
