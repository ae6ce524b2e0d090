import type {PartialTrack, Tracks} from './partial-tracks.ts';

/** Unwrapped phase of one partial over one unbroken stretch. */
export interface Phases {
	readonly n: number;
	readonly referenceHz: number;
	/** Root mean square amplitude over the frames used. */
	readonly amplitude: number;
	/** Seconds after the onset. */
	readonly timesS: Float64Array;
	readonly phaseRad: Float64Array;
	/** One over the variance of each phase by noise alone, frames counted as independent looks; 0 = left out. */
	readonly weight: Float64Array;
	readonly frames: number;
}

/**
 * Variance of a frame's complex amplitude, from the gaps between partials
 * (half-integer numbers): the median of |z|² over ln 2, the mean of an
 * exponential distribution with that median. Other strings and hum in a few of
 * the gaps do not move a median.
 */
export function noiseVariance({tracks}: Tracks): number {
	const squares = tracks
		.filter(track => !Number.isInteger(track.n))
		.flatMap(({re, im}) => Array.from(re, (x, k) => x ** 2 + im[k]! ** 2))
		.sort((a, b) => a - b);
	return Math.max(1e-14, (squares[squares.length >> 1] ?? 0) / Math.LN2);
}

/** Amplitude below which a phase cannot be followed, in standard deviations of the noise. */
const followable = 2;

/**
 * Phases of one track, up to where it sinks into noise: beyond that a whole
 * turn may be lost unseen.
 *
 * @returns undefined if fewer than five frames can be followed.
 */
export function phasesOf(
	track: PartialTrack,
	timesS: Float64Array,
	noise: number,
	framesPerLook: number,
): Phases | undefined {
	const {re, im, n, referenceHz} = track;
	const phaseRad = new Float64Array(re.length);
	const weight = new Float64Array(re.length);
	let frames = 0;
	let power = 0;
	for (let k = 0; k < re.length; k++) {
		const square = re[k]! ** 2 + im[k]! ** 2;
		if (square < followable ** 2 * noise) break;
		const raw = Math.atan2(im[k]!, re[k]!);
		const before = k > 0 ? phaseRad[k - 1]! : raw;
		phaseRad[k] = raw + 2 * Math.PI * Math.round((before - raw) / (2 * Math.PI));
		// Variance of a phase: half the noise over the squared amplitude.
		weight[k] = (2 * (square - noise)) / (noise * framesPerLook);
		power += square;
		frames++;
	}

	return frames >= 5
		? {n, referenceHz, amplitude: Math.sqrt(power / frames), timesS, phaseRad, weight, frames}
		: undefined;
}
