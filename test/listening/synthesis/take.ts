import {type PartialLaw, partialHz} from '../../../source/listening/partial-law.ts';
import type {StringPlace} from '../../../source/listening/which-string.ts';
import {frequencyHz} from '../../../source/music/pitch.ts';
import {type StringNumber, stringNumbers} from '../../../source/music/string-number.ts';
import {tuningsFor} from '../../../source/music/tunings.ts';
import type {Rng} from '../../../source/numeric/rng.ts';
import {between, betweenLog, oneOf, shuffled} from './draw.ts';
import {render, type Scene} from './scene.ts';
import {drawTone, type SyntheticPartial, type SyntheticTone} from './tone.ts';

/** What other strings do while one is plucked. */
export const companies = ['damped', 'ringing along', 'left ringing'] as const;
/**
 * `damped`: silence but for noise and hum. `ringing along`: every other string
 * at -20 dB of the plucked one. `left ringing`: that, and the string plucked
 * before goes on at its own full strength.
 */
export type Company = (typeof companies)[number];

export const ways = ['open', 'harmonic', 'fretted'] as const;
export type Way = (typeof ways)[number];

/** One pluck of a take, and the hidden truth about it. */
export interface TakenPluck {
	readonly string: StringNumber;
	readonly way: Way;
	/** Onset in the samples as delivered, s. */
	readonly atS: number;
	/** Law of the tone as it sounds. */
	readonly law: PartialLaw;
	/** What a perfect tuner shows once the attack is over. */
	readonly hz: number;
	readonly tone: SyntheticTone;
	readonly partials: readonly SyntheticPartial[];
	readonly loss?: Loss;
}

/** Samples lost so long after the onset, filled with silence or cut out. */
export interface Loss {
	readonly afterS: number;
	readonly lengthS: number;
	readonly kind: 'zeros' | 'cut';
}

export interface Take {
	readonly samples: Float32Array;
	readonly sampleRateHz: number;
	readonly noise: number;
	readonly isClipped: boolean;
	readonly company: Company;
	/** Where the strings are believed to be. */
	readonly places: readonly StringPlace[];
	readonly plucks: readonly TakenPluck[];
}

export interface TakePlan {
	readonly strings: 6 | 7 | 8;
	readonly company: Company;
	/** Plucks follow each other at this distance, s. */
	readonly spacingS: number;
	/** At most so many plucks; every string in every way otherwise. */
	readonly most?: number;
	/** Nothing cut off, nothing lost. */
	readonly isClean?: boolean;
}

/** Every string of a drawn instrument, open, harmonic and fretted, in drawn order. */
export function drawTake(rng: Rng, {strings, company, spacingS, most = 99, isClean = false}: TakePlan): Take {
	const sampleRateHz = oneOf(rng, [44_100, 48_000]);
	const tuning = tuningsFor(strings)[0]!;
	const open = stringNumbers.slice(0, strings).map((string, i) => {
		const targetHz = frequencyHz(tuning.notes[i]!);
		const sd = oneOf(rng, [3, 10, 25]);
		const mean = between(rng, -60, 60);
		const idealHz = targetHz * 2 ** ((mean + sd * rng.normal()) / 1200);
		const stiffness = betweenLog(rng, 1e-5, 5e-4);
		return {place: {string, targetHz, now: {mean, sd}} satisfies StringPlace, law: {idealHz, stiffness}};
	});
	// Loud enough to be heard, soft enough not to be cut off, unless it is.
	const level = between(rng, 0.03, 0.1);
	const isClipped = rng.uniform() < 0.1 && !isClean;
	const noise = level * 10 ** (-between(rng, 20, 40) / 20);
	const hum =
		rng.uniform() < 0.5
			? {hz: oneOf(rng, [50, 60]) + between(rng, -0.05, 0.05), level: level * 10 ** (-between(rng, 25, 45) / 20)}
			: undefined;

	const order = shuffled(
		rng,
		open.flatMap(string => ways.map(way => ({string, way}))),
	).slice(0, most);
	const tones: {tone: SyntheticTone; startS: number; endS: number}[] = [];
	const dropouts: {atS: number; lengthS: number; kind: 'zeros' | 'cut'}[] = [];
	const firstS = 0.7;
	const drawn = order.map(({string, way}, i) => {
		const atS = firstS + i * spacingS + between(rng, -0.03, 0.03);
		const endS = firstS + (order.length + 1) * spacingS;
		// Damped by the hand just before the next pluck, or by the next pluck of the same string.
		const again = order.findIndex((o, j) => j > i && o.string === string);
		const nextS = firstS + (i + 1) * spacingS - 0.08;
		const stopS =
			company === 'left ringing'
				? Math.min(nextS + spacingS, again > 0 ? firstS + again * spacingS - 0.04 : endS)
				: nextS;
		const law = lawOf(rng, string.law, way);
		const loud = level * 10 ** (between(rng, -4, 2) / 20);
		const quick = way === 'fretted' ? {decayPerS: betweenLog(rng, 1, 4)} : {};
		const leak = way === 'harmonic' && rng.uniform() < 0.3 ? {leak: 10 ** (-between(rng, 20, 35) / 20)} : {};
		const tone = drawTone(rng, law, loud, {...quick, ...leak});
		const position = tones.length;
		tones.push({tone, startS: atS, endS: stopS});
		if (company !== 'damped') {
			for (const other of open) {
				if (other === string) continue;
				const along = drawTone(rng, other.law, loud / 10, {pickNoise: 0, glideCents: 0});
				tones.push({tone: along, startS: atS, endS: nextS});
			}
		}

		const isBroken = rng.uniform() < 0.1 && !isClean;
		const afterS = isBroken ? between(rng, 0.1, 0.7) : 0;
		const loss: Loss | undefined = isBroken
			? {afterS, lengthS: betweenLog(rng, 0.002, 0.02), kind: oneOf(rng, ['zeros', 'cut'])}
			: undefined;
		if (loss) dropouts.push({...loss, atS: atS + afterS});
		const truth = {string: string.place.string, way, atS, law, hz: partialHz(law, 1), tone, position};
		return loss ? {...truth, loss} : truth;
	});

	const scene: Scene = {
		sampleRateHz,
		durationS: firstS + order.length * spacingS,
		tones,
		noise,
		...(hum ? {hum} : {}),
		dropouts,
		gain: 1,
	};
	const {samples, partials} = render(
		rng,
		isClipped ? {...scene, gain: (between(rng, 1.3, 2.5) * 0.25) / level} : scene,
	);
	const lostBefore = (atS: number) =>
		dropouts.filter(d => d.kind === 'cut' && d.atS < atS).reduce((sum, d) => sum + d.lengthS, 0);
	return {
		samples,
		sampleRateHz,
		noise,
		isClipped,
		company,
		places: open.map(o => o.place),
		plucks: drawn.map(({position, ...pluck}) => ({
			...pluck,
			partials: partials[position]!,
			atS: pluck.atS - lostBefore(pluck.atS),
		})),
	};
}

/** Harmonic: partials 2, 4, 6 … of the open string. Fretted: half the length and a little off, four times the stiffness coefficient. */
function lawOf(rng: Rng, open: PartialLaw, way: Way): PartialLaw {
	if (way === 'open') return open;
	const octave = {idealHz: 2 * open.idealHz, stiffness: 4 * open.stiffness};
	return way === 'harmonic' ? octave : {...octave, idealHz: octave.idealHz * 2 ** (between(rng, -8, 12) / 1200)};
}
