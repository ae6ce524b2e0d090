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
/** Rise summed over bands, dB, that makes a pluck; a single band counts up to 15. */
const enoughDb = 14;
/** After an onset none is taken for this long, frames: the plectrum's release may sound twice. */
const restFrames = 12;

/** Takes the next frame; tells whether a pluck begins in it. */
export function watchOnset(
	watch: OnsetWatch,
	frame: Float32Array,
	sampleRateHz: number,
): {readonly watch: OnsetWatch; readonly isOnset: boolean} {
	const energy = bandEnergies(frame, sampleRateHz);
	const past = watch.frames.slice(-farthest, -nearest + 1);
	let riseDb = 0;
	let rising = 0;
	for (let b = 0; past.length > 0 && b < bands; b++) {
		const floor = 4 * watch.floor[b]!;
		const before = Math.max(...past.map(p => p[b]!));
		const rise = 10 * Math.log10((energy[b]! + floor) / (before + floor));
		// The loudest of five frames of mere noise is beaten by a decibel or two now and then.
		if (rise > 2) {
			riseDb += Math.min(15, rise - 2);
			rising++;
		}
	}

	const isOnset = riseDb > enoughDb && rising >= 2 && watch.sinceOnset >= restFrames;
	// The floor follows down at once and up slowly, by 1 dB a second; over several frames, as one alone may be nearly empty by chance.
	const recent = [...watch.frames.slice(-farthest + 1), energy];
	const floor = watch.floor.map((f, b) => {
		const mean = recent.reduce((sum, e) => sum + e[b]!, 0) / recent.length;
		return Math.max(1e-10, recent.length < farthest ? mean : Math.min(mean, f * 1.0023));
	});
	return {
		watch: {frames: recent, floor, sinceOnset: isOnset ? 0 : watch.sinceOnset + 1},
		isOnset,
	};
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
