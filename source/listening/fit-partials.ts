import {centsPerLog} from '../music/pitch.ts';
import type {Estimate} from '../numeric/estimate.ts';
import {clearTrack} from './clear-track.ts';
import {driftOf} from './drift.ts';
import {fitPhases} from './fit-phases.ts';
import {type PartialLaw, partialHz} from './partial-law.ts';
import type {Tracks} from './partial-tracks.ts';
import {noiseVariance, type Phases, phasesOf} from './phases.ts';

/** What the phases of all partials say about one pluck. */
export interface PartialFit {
	/** The law once the attack has died away. */
	readonly law: PartialLaw;
	/** One standard deviation of the first partial, cents: noise, what rings beside unseen, and the glide's shape. */
	readonly sdCents: number;
	/** One standard deviation of the stiffness coefficient. */
	readonly stiffnessSd: number;
	/** Sharp by this much at the onset, cents, dying as e^(-t/τ). */
	readonly glideCents: number;
	readonly glideTimeS: number;
	/** Pitch moving after the attack, cents per second: a peg being turned, a finger bending; undefined while too little was heard. */
	readonly drift?: Estimate;
	/** Partials used, how far each lies from the law, and how far it was trusted (1 = fully). */
	readonly partials: readonly {
		readonly n: number;
		readonly amplitude: number;
		readonly offCents: number;
		readonly sdCents: number;
		readonly trust: number;
	}[];
	/** How many times worse the partials agree than their uncertainties allow; about 1 for a sound pluck. */
	readonly disagreement: number;
}

/** An unbroken stretch of sound, as tracks around one law. */
export interface Stretch {
	readonly tracks: Tracks;
	/** Time of the tracks' zero after the onset, s. */
	readonly firstS: number;
}

export interface FitSettings {
	/** Rounds of taking away what rings beside; 0 is quicker and coarser. */
	readonly clearings: number;
	/** Share of each partial's amplitude that is known to come from elsewhere, by partial number. */
	readonly beside: (n: number) => number;
}

/**
 * Fits pitch, stiffness and attack glide to all partials at once.
 *
 * The phase of partial n at time t after the onset is
 *
 *     φ_n + 2π f_n (t - g τ e^(-t/τ)),   f_n = n f₀ √(1 + B n²)
 *
 * with φ_n its own and f₀, B, g, τ common to all: every partial glides by the
 * same ratio, because it is the tension that falls. For a given τ and a start
 * within some cents this is linear least squares; τ is found by trying.
 * Partials that disagree with the rest are trusted less (`partial-trust.ts`),
 * and lines that ring beside a partial are fitted with it and taken away
 * (`clear-track.ts`).
 *
 * @param stretches Around one and the same `law`, half-integer tracks included.
 * @returns undefined if fewer than two partials stand out of the noise.
 */
export function fitPartials(
	stretches: readonly Stretch[],
	law: PartialLaw,
	settings: FitSettings,
): PartialFit | undefined {
	const prepared = stretches
		.filter(({tracks}) => tracks.timesS.length >= 5)
		.map(({tracks, firstS}) => ({tracks, timesS: tracks.timesS.map(t => t + firstS), noise: noiseVariance(tracks)}));
	const numbers = [...new Set(prepared.flatMap(({tracks}) => tracks.tracks.map(t => t.n)))].filter(Number.isInteger);

	const partialsWith = (fit?: PartialFit): readonly (readonly Phases[])[] =>
		numbers
			.map(n =>
				prepared
					.map(({tracks, timesS, noise}) => {
						const track = tracks.tracks.find(t => t.n === n)!;
						const clear = fit
							? clearTrack(track, timesS, expectedPhase(fit, n, track.referenceHz, timesS), noise)
							: track;
						return phasesOf(clear, timesS, noise, tracks.framesPerLook);
					})
					.filter(p => p !== undefined),
			)
			.filter(p => p.length > 0);

	const heard = partialsWith();
	let fit = fitPhases(heard, law, settings);
	for (let round = 0; fit && round < settings.clearings; round++)
		fit = fitPhases(partialsWith(fit), law, settings) ?? fit;
	// Clearing would take a moving partial for a row of lines beside it: its movement shows before.
	const drift = driftOf(heard);
	return fit && (drift ? {...fit, drift} : fit);
}

/** Phase of partial `n` beyond its reference, rad, as fitted. */
function expectedPhase(fit: PartialFit, n: number, referenceHz: number, timesS: Float64Array): Float64Array {
	const hz = partialHz(fit.law, n);
	const glide = fit.glideCents / centsPerLog;
	return timesS.map(
		t => 2 * Math.PI * ((hz - referenceHz) * t - hz * glide * fit.glideTimeS * Math.exp(-t / fit.glideTimeS)),
	);
}
