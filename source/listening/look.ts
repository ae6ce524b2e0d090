import {estimateTone, type HeardTone} from './estimate-tone.ts';
import type {Care} from './fit-sound.ts';
import {clippedSamples} from './level.ts';
import {
	type Heard,
	type HeardPluck,
	type HearingHints,
	type Listening,
	type OpenPluck,
	samplesOf,
} from './listening.ts';

/** The plectrum's scratch is left out, s after the onset. */
export const scratchS = 0.05;
/** What rang before is looked at over this long, s. */
const beforeS = 0.45;
/** When a pluck is looked at, s after its onset, and how sure it must be to be told then, cents. */
const looks = [
	{atS: 0.3, care: 'quick', enoughCents: 0},
	{atS: 0.6, care: 'careful', enoughCents: 0.06},
	{atS: 0.8, care: 'careful', enoughCents: 0.2},
	{atS: 1, care: 'careful', enoughCents: 0.3},
	{atS: 1.2, care: 'careful', enoughCents: 0.4},
	{atS: 1.4, care: 'careful', enoughCents: 0.5},
] as const;
export const lastLook = looks[looks.length - 1]!;
/** A pluck cut shorter than this says nothing, s. */
export const shortestS = 0.25;
/** Partials that disagree more than this (see `PartialFit`) make no reading. */
const mostDisagreement = 2;
/** Real strings settle on for seconds by a cent or two; a peg moves ten and more a second. */
const mostDriftCentsPerS = 4;
/** Samples at full scale that make a pluck clipped. */
const mostClipped = 8;

/** Looks at the open pluck if it is time to, and tells it if it is sure enough or the last look. */
export function lookAtPluck(listening: Listening, now: number, hints: HearingHints): Heard {
	const {pluck, sampleRateHz} = listening;
	const plan = pluck && looks[pluck.look];
	if (!plan || pluck.isTold || now < pluck.onset + plan.atS * sampleRateHz) return {listening, plucks: []};
	const tone = toneOf(listening, pluck, pluck.onset + Math.round(plan.atS * sampleRateHz), plan.care, hints);
	const verdict = verdictOn(tone, plan.enoughCents);
	const isTold = plan === lastLook || (plan.care === 'careful' && verdict === 'settled');
	const next: OpenPluck = {...pluck, look: pluck.look + 1, ...(tone ? {tone} : {})};
	return isTold
		? tell({...listening, pluck: next}, now, verdict, tone)
		: {listening: {...listening, pluck: next}, plucks: []};
}

/** Ends the open pluck at sample `end`, telling what there was of it. */
export function closePluck(listening: Listening, end: number, hints: HearingHints): Heard {
	const {pluck, sampleRateHz} = listening;
	if (!pluck || pluck.isTold || end - pluck.onset < shortestS * sampleRateHz) return {listening, plucks: []};
	const to = Math.min(end, pluck.onset + Math.round(lastLook.atS * sampleRateHz));
	const tone = toneOf(listening, pluck, to, 'careful', hints);
	return tell(listening, end, verdictOn(tone, lastLook.enoughCents), tone);
}

/** Whether a tone is a reading. */
export function verdictOn(tone: HeardTone | undefined, enoughCents: number): HeardPluck['verdict'] {
	if (!tone) return 'no-pitch';
	const {drift, disagreement} = tone.fit;
	if (drift && Math.abs(drift.mean) > mostDriftCentsPerS + 4 * drift.sd) return 'moving';
	return tone.sdCents <= enoughCents && disagreement <= mostDisagreement ? 'settled' : 'unsure';
}

/** Gives the open pluck out. */
export function tell(
	listening: Listening,
	told: number,
	verdict: HeardPluck['verdict'],
	tone: HeardTone | undefined,
	isTurned = false,
): Heard {
	const {pluck, sampleRateHz, losses} = listening;
	if (!pluck) return {listening, plucks: []};
	const isClipped = clippedSamples(samplesOf(listening, pluck.onset, told)) > mostClipped;
	const heard: HeardPluck = {
		onsetS: pluck.onset / sampleRateHz,
		toldS: told / sampleRateHz,
		verdict,
		...(tone ? {tone} : {}),
		isClipped,
		isTurned,
	};
	// It starts where it was told, standing still; unless it never did.
	const standing =
		tone && verdict !== 'moving'
			? {toldHz: tone.hz, hz: tone.hz, steadyLooks: 1, tone: {law: tone.law, level: tone.level}}
			: {steadyLooks: 0};
	const ring = {...standing, next: told, sdCents: tone?.sdCents ?? 0};
	return {
		listening: {
			...listening,
			losses: losses + (tone?.breaks ?? 0),
			pluck: {...pluck, isTold: true, ring, ...(tone ? {tone} : {})},
		},
		plucks: [heard],
	};
}

function toneOf(
	listening: Listening,
	{onset, beforeTo}: OpenPluck,
	end: number,
	care: Care,
	hints: HearingHints,
): HeardTone | undefined {
	const {sampleRateHz} = listening;
	const before = samplesOf(listening, beforeTo - Math.round(beforeS * sampleRateHz), beforeTo);
	const samples = samplesOf(listening, onset + Math.round(scratchS * sampleRateHz), end);
	return estimateTone({samples, sampleRateHz, sinceOnsetS: scratchS, before, ...hints}, care);
}
