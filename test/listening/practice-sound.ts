import {lawWithFirstPartial, type PartialLaw} from '../../source/listening/partial-law.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {type Guitar, truth} from '../../source/practice/index.ts';
import {soundCents} from '../../source/practice/sound.ts';
import {render} from './synthesis/scene.ts';
import {drawTone} from './synthesis/tone.ts';

/** How a string of the practice guitar is sounded. */
export interface Sounded {
	/** Array index: 0 is string 1. */
	readonly index: number;
	readonly how: 'open' | 'harmonic' | 'fretted';
	readonly fret?: number;
}

export const practiceRateHz = 48_000;
/** Quiet before the pluck, and the whole, s. */
export const practiceQuietS = 0.6;
export const practiceLengthS = 1.9;
const level = 0.08;

/** Semitones above the open string at which it is asked for. */
export function semitonesUpOf({how, fret = 12}: Omit<Sounded, 'index'>): number {
	return how === 'open' ? 0 : how === 'harmonic' ? 12 : fret;
}

/** What a perfect tuner shows of it, cents from the target sounded that way; undefined when slack. */
export function trueCentsOf(guitar: Guitar, {index, how, fret}: Sounded): number | undefined {
	return soundCents(guitar, index, fret === undefined ? {how} : {how, fret});
}

/**
 * One pluck of the practice guitar as it sounds, the other strings ringing along
 * 20 dB below. Pitch and stiffness are the guitar's hidden truth; the rest is drawn.
 *
 * @throws {Error} If the string is slack.
 */
export function practiceSound(guitar: Guitar, sounded: Sounded, seed: readonly number[]): Float32Array {
	const rng = rngFrom(7, ...seed);
	const cents = trueCentsOf(guitar, sounded);
	if (cents === undefined) throw new Error(`string ${sounded.index + 1} is slack: it has no pitch`);
	const up = semitonesUpOf(sounded);
	const hz = guitar.spec.strings[sounded.index]!.targetHz * 2 ** (up / 12 + cents / 1200);
	const own = lawWithFirstPartial(hz, openStiffnessOf(guitar, sounded.index) * 2 ** (up / 6));
	const startS = practiceQuietS;
	const others = truth(guitar).cents.flatMap((_, i) => {
		const law = i === sounded.index ? undefined : openLawOf(guitar, i);
		if (!law) return [];
		return [{tone: drawTone(rng, law, level / 10, {pickNoise: 0, glideCents: 0}), startS, endS: 9}];
	});
	return render(rng, {
		sampleRateHz: practiceRateHz,
		durationS: practiceLengthS,
		noise: level / 50,
		tones: [{tone: drawTone(rng, own, level), startS, endS: 9}, ...others],
	}).samples;
}

function openLawOf(guitar: Guitar, index: number): PartialLaw | undefined {
	const cents = trueCentsOf(guitar, {index, how: 'open'});
	if (cents === undefined) return undefined;
	const hz = guitar.spec.strings[index]!.targetHz * 2 ** (cents / 1200);
	return lawWithFirstPartial(hz, openStiffnessOf(guitar, index));
}

/** Stiffness coefficient of the open string, from how far its second mode lies above twice the first: (1 + 4B) / (1 + B). */
export function openStiffnessOf(guitar: Guitar, index: number): number {
	const [first, second] = (['open', 'harmonic'] as const).map(how => trueCentsOf(guitar, {index, how}));
	if (first === undefined || second === undefined) return 0;
	const ratio = 2 ** ((second - first) / 600);
	return Math.max(0, (ratio - 1) / (4 - ratio));
}
