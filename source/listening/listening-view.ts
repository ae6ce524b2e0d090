import {endOf, type Listening} from './listening.ts';
import {type Trouble, troublesIn} from './trouble.ts';

/** What a screen may show of the listening at one moment; plain values, no arithmetic left to do. */
export interface ListeningView {
	/** Root mean square and recent highest sample, dB re full scale, -120 to 0. */
	readonly rmsDb: number;
	readonly peakDb: number;
	readonly isClipping: boolean;
	/**
	 * `waiting` for a pluck; `attack` just plucked, no pitch yet; `settling`
	 * a pitch, not yet a reading; `told` a reading was given and the string
	 * rings on; `turning` it rings on and its pitch moves.
	 */
	readonly phase: 'waiting' | 'attack' | 'settling' | 'told' | 'turning';
	/** First partial of what sounds now, if it is known. */
	readonly hz?: number;
	readonly sdCents?: number;
	/** How near to a reading, 0 to 1. */
	readonly settled: number;
	/** Seconds since the onset of the pluck at hand. */
	readonly sinceOnsetS?: number;
	readonly troubles: readonly Trouble[];
}

/** Uncertainty at which nothing is settled, and at which all is, cents. */
const vagueCents = 5;
const surelyCents = 0.2;
/** A pluck is a matter of the past after this long without a sound of it, s. */
const forgottenS = 4;

export function viewOf(listening: Listening): ListeningView {
	const {level, pluck, sampleRateHz} = listening;
	const always = {
		rmsDb: level.rmsDb,
		peakDb: level.peakDb,
		isClipping: level.clippedSamples > 0,
		troubles: troublesIn(listening),
	};
	if (!pluck) return {...always, phase: 'waiting', settled: 0};
	const sinceOnsetS = (endOf(listening) - pluck.onset) / sampleRateHz;
	const {tone, ring, isTold} = pluck;
	if (isTold && ring) {
		if (ring.hz === undefined)
			return sinceOnsetS > forgottenS || !tone
				? {...always, phase: 'waiting', settled: 0}
				: {...always, phase: 'told', hz: tone.hz, sdCents: tone.sdCents, settled: 1, sinceOnsetS};
		const isStill = ring.steadyLooks > 0;
		return {
			...always,
			phase: isStill ? 'told' : 'turning',
			hz: ring.hz,
			sdCents: ring.sdCents,
			settled: isStill ? 1 : 0,
			sinceOnsetS,
		};
	}

	if (!tone) return {...always, phase: 'attack', settled: 0, sinceOnsetS};
	return {
		...always,
		phase: 'settling',
		hz: tone.hz,
		sdCents: tone.sdCents,
		settled: settledness(tone.sdCents),
		sinceOnsetS,
	};
}

/** On a logarithmic scale, as uncertainty falls by ratios. */
function settledness(sdCents: number): number {
	return Math.max(0, Math.min(1, Math.log(vagueCents / sdCents) / Math.log(vagueCents / surelyCents)));
}
