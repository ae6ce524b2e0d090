import {estimateTone, type HeardTone} from './estimate-tone.ts';
import {type Hum, humIn} from './hum.ts';
import {type Level, levelAfter, noLevel} from './level.ts';
import {type OnsetWatch, onsetFrame, onsetHopS, provingFrames, watchFromStart, watchOnset} from './onset.ts';

/**
 * Everything kept while listening. Blocks of samples go in, plucks come out;
 * the state is a plain value and nothing here knows where sound comes from.
 */
export interface Listening {
	readonly sampleRateHz: number;
	/** The last seconds of sound, and the running number of its first sample. */
	readonly recent: Float32Array;
	readonly recentFrom: number;
	readonly watch: OnsetWatch;
	/** Running number of the first sample of the next frame to watch. */
	readonly nextFrame: number;
	readonly level: Level;
	/** The pluck being listened to. */
	readonly pluck?: OpenPluck;
	readonly hum?: Hum;
	readonly nextHumCheck: number;
	/** Samples at full scale in the pluck at hand. */
	readonly clippedInPluck: number;
}

export interface OpenPluck {
	/** Running number of the sample at the onset. */
	readonly onset: number;
	/** The last sample that is surely before it. */
	readonly beforeTo: number;
	/** Which of `looksS` comes next. */
	readonly look: number;
	readonly tone?: HeardTone;
	/** The reading has been given out. */
	readonly isTold: boolean;
}

/** A reading, or the lack of one. */
export interface HeardPluck {
	/** Seconds since listening began, of the onset and of the telling. */
	readonly onsetS: number;
	readonly toldS: number;
	/** `settled`: take it. `unsure`: show it, ask for another pluck. `moving`: the pitch did not stand still. `no-pitch`: a knock, a scratch. */
	readonly verdict: 'settled' | 'unsure' | 'moving' | 'no-pitch';
	readonly tone?: HeardTone;
	readonly isClipped: boolean;
}

export interface Heard {
	readonly listening: Listening;
	readonly plucks: readonly HeardPluck[];
}

export interface HearingHints {
	/** Frequencies where strings are believed to sound; a help among others that ring, never a limit. */
	readonly believedHz?: readonly number[];
}

/** Sound kept, s: one long pluck and what was before it. */
const keptS = 2.4;
/** The plectrum's scratch is left out, s after the onset. */
const scratchS = 0.05;
/** When a pluck is looked at, s after its onset, and how sure it must be to be told then, cents. */
const looksS = [
	{atS: 0.3, care: 'quick', enoughCents: 0},
	{atS: 0.6, care: 'careful', enoughCents: 0.06},
	{atS: 0.8, care: 'careful', enoughCents: 0.2},
	{atS: 1, care: 'careful', enoughCents: 0.3},
	{atS: 1.2, care: 'careful', enoughCents: 0.4},
	{atS: 1.4, care: 'careful', enoughCents: 0.5},
] as const;
/** A pluck cut shorter than this says nothing, s. */
const shortestS = 0.25;
/** Partials that disagree more than this (see `PartialFit`) make no reading. */
const mostDisagreement = 2;

export function startListening(sampleRateHz: number): Listening {
	if (!(sampleRateHz >= 8000))
		throw new RangeError(`startListening: expected sampleRateHz to be at least 8000, got ${sampleRateHz}`);
	return {
		sampleRateHz,
		recent: new Float32Array(0),
		recentFrom: 0,
		watch: watchFromStart,
		nextFrame: 0,
		level: noLevel,
		nextHumCheck: sampleRateHz,
		clippedInPluck: 0,
	};
}

/** Takes the next block of samples (any length, full scale = 1). */
export function hear(before: Listening, block: Float32Array, hints: HearingHints = {}): Heard {
	let listening = append(before, block);
	const plucks: HeardPluck[] = [];
	const end = listening.recentFrom + listening.recent.length;
	const hop = Math.round(onsetHopS * listening.sampleRateHz);
	while (listening.nextFrame + onsetFrame <= end) {
		const {nextFrame} = listening;
		const {watch, isOnset} = watchOnset(
			listening.watch,
			slice(listening, nextFrame, nextFrame + onsetFrame),
			listening.sampleRateHz,
		);
		listening = {...listening, watch, nextFrame: nextFrame + hop};
		if (isOnset) {
			// The frame's last third has just been reached by the pluck.
			const onset = nextFrame - provingFrames * hop + Math.round(0.7 * onsetFrame);
			const last = listening.pluck;
			const closed = close(listening, onset - Math.round(0.5 * onsetFrame), hints);
			plucks.push(...closed.plucks);
			// Soon after another onset this may be the same pluck, torn by lost samples or struck twice: what was before the first counts.
			const isSame = last && !last.isTold && onset - last.onset < shortestS * 2 * listening.sampleRateHz;
			const beforeTo = isSame ? last.beforeTo : onset - Math.round(0.015 * listening.sampleRateHz);
			listening = {...closed.listening, clippedInPluck: 0, pluck: {onset, beforeTo, look: 0, isTold: false}};
		}

		const looked = look(listening, nextFrame + onsetFrame, hints);
		plucks.push(...looked.plucks);
		listening = looked.listening;
	}

	return {listening: checkHum(listening), plucks};
}

/** The sound ended (a file): tells what was heard of the last pluck. */
export function hearEnd(listening: Listening, hints: HearingHints = {}): Heard {
	return close(listening, listening.recentFrom + listening.recent.length, hints);
}

/** "Now": the pitch of the last half second, onset or not; undefined when nothing like a string sounds. */
export function hearNow(listening: Listening, hints: HearingHints = {}): HeardTone | undefined {
	const {sampleRateHz, recentFrom, recent, pluck} = listening;
	const end = recentFrom + recent.length;
	const from = Math.max(
		recentFrom,
		end - Math.round(0.6 * sampleRateHz),
		pluck ? pluck.onset + Math.round(scratchS * sampleRateHz) : 0,
	);
	return estimateTone({
		samples: slice(listening, from, end),
		sampleRateHz,
		// Long after an attack, unless one was just heard.
		sinceOnsetS: pluck ? (from - pluck.onset) / sampleRateHz : 2,
		...hints,
	});
}

function append(listening: Listening, block: Float32Array): Listening {
	const {recent, recentFrom, sampleRateHz, level, clippedInPluck} = listening;
	const kept = Math.min(recent.length, Math.max(0, Math.round(keptS * sampleRateHz) - block.length));
	const joined = new Float32Array(kept + block.length);
	joined.set(recent.subarray(recent.length - kept));
	joined.set(block, kept);
	const now = levelAfter(level, block, sampleRateHz);
	return {
		...listening,
		recent: joined,
		recentFrom: recentFrom + recent.length - kept,
		level: now,
		clippedInPluck: clippedInPluck + now.clippedSamples,
	};
}

/** Samples by running number. */
function slice({recent, recentFrom}: Listening, from: number, to: number): Float32Array {
	return recent.subarray(Math.max(0, from - recentFrom), Math.max(0, to - recentFrom));
}

/** Looks at the open pluck if it is time to. */
function look(listening: Listening, now: number, hints: HearingHints): Heard {
	const {pluck, sampleRateHz} = listening;
	if (!pluck) return {listening, plucks: []};
	const plan = looksS[pluck.look];
	if (!plan || pluck.isTold || now < pluck.onset + plan.atS * sampleRateHz) return {listening, plucks: []};
	const tone = toneOf(listening, pluck, pluck.onset + Math.round(plan.atS * sampleRateHz), plan.care, hints);
	const isLast = pluck.look === looksS.length - 1;
	const verdict = verdictOn(tone, plan.enoughCents);
	const isTold = plan.care === 'careful' && (verdict === 'settled' || isLast);
	const next: OpenPluck = {...pluck, look: pluck.look + 1, isTold, ...(tone ? {tone} : {})};
	return {listening: {...listening, pluck: next}, plucks: isTold ? [heard(listening, pluck, now, verdict, tone)] : []};
}

/** Ends the open pluck at sample `end`, telling what there was of it. */
function close(listening: Listening, end: number, hints: HearingHints): Heard {
	const {pluck, sampleRateHz} = listening;
	if (!pluck || pluck.isTold || end - pluck.onset < shortestS * sampleRateHz) return {listening, plucks: []};
	const tone = toneOf(listening, pluck, Math.min(end, pluck.onset + Math.round(1.4 * sampleRateHz)), 'careful', hints);
	const next = {...listening, pluck: {...pluck, isTold: true, ...(tone ? {tone} : {})}};
	return {listening: next, plucks: [heard(listening, pluck, end, verdictOn(tone, 0.5), tone)]};
}

function toneOf(
	listening: Listening,
	{onset, beforeTo}: OpenPluck,
	end: number,
	care: 'quick' | 'careful',
	hints: HearingHints,
): HeardTone | undefined {
	const {sampleRateHz, recentFrom} = listening;
	const from = onset + Math.round(scratchS * sampleRateHz);
	const beforeFrom = Math.max(recentFrom, beforeTo - Math.round(0.45 * sampleRateHz));
	return estimateTone(
		{
			samples: slice(listening, from, end),
			sampleRateHz,
			sinceOnsetS: scratchS,
			before: slice(listening, beforeFrom, beforeTo),
			...hints,
		},
		{care},
	);
}

function verdictOn(tone: HeardTone | undefined, enoughCents: number): HeardPluck['verdict'] {
	if (!tone) return 'no-pitch';
	const {driftCentsPerS, driftSdCentsPerS, disagreement} = tone.fit;
	if (Math.abs(driftCentsPerS) > 4 + 4 * driftSdCentsPerS) return 'moving';
	return tone.sdCents <= enoughCents && disagreement <= mostDisagreement ? 'settled' : 'unsure';
}

function heard(
	{sampleRateHz, clippedInPluck}: Listening,
	{onset}: OpenPluck,
	told: number,
	verdict: HeardPluck['verdict'],
	tone?: HeardTone,
): HeardPluck {
	return {
		onsetS: onset / sampleRateHz,
		toldS: told / sampleRateHz,
		verdict,
		...(tone ? {tone} : {}),
		isClipped: clippedInPluck > 8,
	};
}

/** Once a second, when nobody has played for a while. */
function checkHum(listening: Listening): Listening {
	const {sampleRateHz, recent, recentFrom, pluck, nextHumCheck} = listening;
	const end = recentFrom + recent.length;
	if (end < nextHumCheck) return listening;
	const next = {...listening, nextHumCheck: end + sampleRateHz};
	if (pluck && end - pluck.onset < 3 * sampleRateHz) return next;
	const {hum: _, ...rest} = next;
	const hum = humIn(recent.subarray(Math.max(0, recent.length - Math.round(0.5 * sampleRateHz))), sampleRateHz);
	return hum ? {...rest, hum} : rest;
}
