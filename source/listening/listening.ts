import type {HeardTone} from './estimate-tone.ts';
import type {Hum} from './hum.ts';
import type {Leap} from './leap.ts';
import {type Level, noLevel} from './level.ts';
import {type OnsetWatch, watchFromStart} from './onset.ts';
import type {PartialLaw} from './partial-law.ts';

/**
 * Everything kept while listening. Blocks of samples go in, plucks come out;
 * the state is a plain value and nothing here knows where sound comes from.
 * Times inside are running numbers of samples since listening began.
 */
export interface Listening {
	readonly sampleRateHz: number;
	/** The last seconds of sound, and the running number of its first sample. */
	readonly recent: Float32Array;
	readonly recentFrom: number;
	readonly watch: OnsetWatch;
	/** First sample of the next frame to watch for an onset. */
	readonly nextFrame: number;
	readonly level: Level;
	/** The pluck being listened to, until the next one. */
	readonly pluck?: OpenPluck;
	readonly hum?: Hum;
	readonly nextHumCheck: number;
	/** Times that samples were reported or found lost. */
	readonly losses: number;
}

export interface OpenPluck {
	readonly onset: number;
	/** The last sample that is surely before it. */
	readonly beforeTo: number;
	/** Which of the looks comes next. */
	readonly look: number;
	/** The latest and best that is known of it. */
	readonly tone?: HeardTone;
	/** A reading, or that there is none, has been given out. */
	readonly isTold: boolean;
	/** The ringing string as it is followed after that. */
	readonly ring?: Ring;
}

/** What is kept of a tone to know it again. */
export interface RingTone {
	readonly law: PartialLaw;
	/** Root mean square of the partials, full scale = 1. */
	readonly level: number;
}

/** A string that goes on ringing, perhaps while its peg is turned. */
export interface Ring {
	/** Pitch given out last; undefined when it never stood still. */
	readonly toldHz?: number;
	/** Sample at which it is looked at next. */
	readonly next: number;
	/** Latest pitch; undefined once it has died away. */
	readonly hz?: number;
	readonly sdCents: number;
	/** Looks in a row at which it stood still. */
	readonly steadyLooks: number;
	/** The tone where it was followed last. */
	readonly tone?: RingTone;
	/** It is heard elsewhere since: turned fast, or another string. */
	readonly leap?: Leap;
}

/** A reading, or the lack of one. */
export interface HeardPluck {
	/** Seconds since listening began, of the onset and of the telling. */
	readonly onsetS: number;
	readonly toldS: number;
	/** `settled`: take it. `unsure`: show it, ask for another pluck. `moving`: the pitch did not stand still. `no-pitch`: a knock, a scratch. */
	readonly verdict: 'settled' | 'unsure' | 'moving' | 'no-pitch';
	readonly tone?: HeardTone;
	/** The sound was cut off at full scale: play softer or turn the input down. */
	readonly isClipped: boolean;
	/** A pluck told before, whose string has been turned while it rang and now stands still elsewhere. */
	readonly isTurned: boolean;
}

export interface Heard {
	readonly listening: Listening;
	readonly plucks: readonly HeardPluck[];
}

export interface HearingHints {
	/** Frequencies where strings are believed to sound; a help among others that ring, never a limit. */
	readonly believedHz?: readonly number[];
}

/**
 * Nothing heard yet.
 *
 * @throws {RangeError} If `sampleRateHz` is below 8000.
 */
export function startListening(sampleRateHz: number): Listening {
	if (!(sampleRateHz >= 8000 && sampleRateHz < 1e6)) {
		throw new RangeError(`startListening: expected sampleRateHz from 8000 to 1e6, got ${sampleRateHz}`);
	}

	return {
		sampleRateHz,
		recent: new Float32Array(0),
		recentFrom: 0,
		watch: watchFromStart,
		nextFrame: 0,
		level: noLevel,
		nextHumCheck: sampleRateHz,
		losses: 0,
	};
}

/** Samples [from, to) by running number, as far as they are kept. */
export function samplesOf({recent, recentFrom}: Listening, from: number, to: number): Float32Array {
	return recent.subarray(Math.max(0, from - recentFrom), Math.max(0, to - recentFrom));
}

/** Running number of the sample that comes next. */
export function endOf({recent, recentFrom}: Listening): number {
	return recentFrom + recent.length;
}
