/** How loud it is, for a level display and for telling what is wrong. Decibels re full scale. */
export interface Level {
	/** Root mean square of the last tenth of a second or so. */
	readonly rmsDb: number;
	/** Highest sample lately; falls back by 20 dB a second. */
	readonly peakDb: number;
	/** Samples stuck at full scale in the last block. */
	readonly clippedSamples: number;
	/** All samples ever were exactly nothing: a muted input. */
	readonly isDigitalSilence: boolean;
}

export const noLevel: Level = {rmsDb: -120, peakDb: -120, clippedSamples: 0, isDigitalSilence: true};

const db = (amplitude: number) => Math.max(-120, 20 * Math.log10(amplitude));

/** Full scale of 16 bits is 0.99997; anything this near it twice running has been cut off. */
const fullScale = 0.9995;

/** Level after the next block. */
export function levelAfter(level: Level, block: Float32Array, sampleRateHz: number): Level {
	if (block.length === 0) return level;
	let power = 0;
	let peak = 0;
	for (const x of block) {
		power += x * x;
		peak = Math.max(peak, Math.abs(x));
	}

	const blockS = block.length / sampleRateHz;
	const share = 1 - Math.exp(-blockS / 0.1);
	const smooth = (1 - share) * 10 ** (level.rmsDb / 10) + share * (power / block.length);
	return {
		rmsDb: db(Math.sqrt(smooth)),
		peakDb: Math.max(db(peak), level.peakDb - 20 * blockS),
		clippedSamples: clippedSamples(block),
		isDigitalSilence: level.isDigitalSilence && peak === 0,
	};
}

/** Samples stuck at full scale: the second and later of each run. */
export function clippedSamples(samples: Float32Array): number {
	let clipped = 0;
	let run = 0;
	for (const x of samples) {
		run = Math.abs(x) >= fullScale ? run + 1 : 0;
		if (run >= 2) clipped++;
	}

	return clipped;
}
