import {fft} from 'fourier-transform';

/**
 * Finds the moment a string is plucked: sound rises at once in several bands
 * an octave wide. Other strings ringing on, hum and beats do not: they are
 * there before, or rise too slowly.
 */
export interface OnsetWatch {
	/** Energies of recent frames, oldest first, one number per band. */
	readonly frames: readonly Float64Array[];
	/** What each band holds when nobody plays. */
	readonly floor: Float64Array;
	/** A rise that has still to prove that it lasts: what was before it, and its age in frames. */
	readonly rise?: {readonly before: Float64Array; readonly age: number};
	/** Frames since the last onset. */
	readonly sinceOnset: number;
}

/** Octave bands. */
const edgesHz = [60, 120, 240, 480, 960, 1920, 3840, 7680] as const;
const bands = edgesHz.length - 1;
/** Frames are this long, samples (21 to 23 ms), one each 10 ms. */
export const onsetFrame = 1024;
export const onsetHopS = 0.01;

export const watchFromStart: OnsetWatch = {frames: [], floor: new Float64Array(bands).fill(1e-10), sinceOnset: 1000};

/** How far back the sound is compared, frames: nearer ones share samples with the newest. */
const nearest = 3;
const farthest = 7;
/** Rise summed over bands, dB, that may be a pluck; a single band counts up to 15. */
const enoughDb = 14;
/** What must still be there of it when the newest frames share nothing with the moment itself: lost samples click, but do not last. */
const lastingDb = 6;
export const provingFrames = 5;
/** After an onset none is taken for this long, frames: the plectrum's release may sound twice. */
const restFrames = 12;

/** Takes the next frame; tells whether a pluck began `provingFrames` before it. */
export function watchOnset(
	watch: OnsetWatch,
	frame: Float32Array,
	sampleRateHz: number,
): {readonly watch: OnsetWatch; readonly isOnset: boolean} {
	const energy = bandEnergies(frame, sampleRateHz);
	const frames = [...watch.frames.slice(-farthest + 1), energy];
	// The floor follows down at once and up slowly, by 1 dB a second; over several frames, as one alone may be nearly empty by chance.
	const floor = watch.floor.map((f, b) => {
		const mean = meanOf(frames, b);
		return Math.max(1e-10, frames.length < farthest ? mean : Math.min(mean, f * 1.0023));
	});
	const next = {frames, floor, sinceOnset: watch.sinceOnset + 1};

	if (watch.rise) {
		const {before, age} = watch.rise;
		if (age + 1 < provingFrames) return {watch: {...next, rise: {before, age: age + 1}}, isOnset: false};
		const lasting = energy.map((_, b) => meanOf(frames.slice(-nearest), b));
		const isOnset = riseDb(before, lasting, watch.floor) > lastingDb;
		return {watch: {...next, sinceOnset: isOnset ? provingFrames : next.sinceOnset}, isOnset};
	}

	const past = watch.frames.slice(-farthest, -nearest + 1);
	if (past.length === 0 || watch.sinceOnset < restFrames) return {watch: next, isOnset: false};
	const before = energy.map((_, b) => Math.max(...past.map(p => p[b]!)));
	const isRise = riseDb(before, energy, watch.floor) > enoughDb;
	return {watch: isRise ? {...next, rise: {before, age: 0}} : next, isOnset: false};
}

function meanOf(frames: readonly Float64Array[], band: number): number {
	return frames.reduce((sum, e) => sum + e[band]!, 0) / frames.length;
}

/** Rise summed over bands, dB; nothing unless two bands rise. */
function riseDb(before: Float64Array, after: Float64Array, floor: Float64Array): number {
	let sum = 0;
	let rising = 0;
	for (let b = 0; b < bands; b++) {
		const rise = 10 * Math.log10((after[b]! + 4 * floor[b]!) / (before[b]! + 4 * floor[b]!));
		// Mere noise beats the loudest of five frames by a decibel or two now and then.
		if (rise > 2) {
			sum += Math.min(15, rise - 2);
			rising++;
		}
	}

	return rising >= 2 ? sum : 0;
}

function bandEnergies(frame: Float32Array, sampleRateHz: number): Float64Array {
	const windowed = new Float64Array(onsetFrame);
	for (let i = 0; i < onsetFrame; i++)
		windowed[i] = (frame[i] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / onsetFrame));
	const [re, im] = fft(windowed);
	const energy = new Float64Array(bands);
	const binHz = sampleRateHz / onsetFrame;
	let band = 0;
	for (let k = Math.ceil(edgesHz[0] / binHz); k < re.length && band < bands; k++) {
		while (band < bands && k * binHz >= edgesHz[band + 1]!) band++;
		if (band < bands) energy[band]! += (re[k]! ** 2 + im[k]! ** 2) / onsetFrame ** 2;
	}

	return energy;
}
