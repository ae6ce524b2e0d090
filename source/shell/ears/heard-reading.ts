import {centsBetween} from '../../music/pitch.ts';
import type {StringNumber} from '../../music/string-number.ts';
import type {HeardTone} from '../../listening/estimate-tone.ts';
import {partialHz} from '../../listening/partial-law.ts';
import {openStiffness} from '../../listening/tuner-difference.ts';
import type {Bench} from '../../session/bench.ts';
import type {Deed, HeardPitch, How} from '../../session/facts.ts';
import type {Seen} from '../seen.ts';
import {formatCents} from '../../units/cents.ts';
import {type AskedPitch, semitonesUp} from './asked-pitch.ts';
import {heardCents, words} from './ear-words.ts';

/** A tone taken as one string sounded one way. */
export interface HeardReading {
	readonly string: StringNumber;
	readonly how: How;
	/** Of a fretted note. */
	readonly fret?: number;
	readonly hz: number;
	/** Of its target sounded that way. */
	readonly cents: number;
	readonly heard: HeardPitch;
	/** As it would be typed: stages take it like any answer. */
	readonly text: string;
}

export function readingOf(tone: HeardTone, string: StringNumber, asked: AskedPitch, {bench}: Seen): HeardReading {
	const row = bench.strings.find(each => each.string === string);
	if (!row) throw new RangeError(`readingOf: expected string to be on this guitar, got ${string}`);
	const up = semitonesUp(asked);
	const soundedHz = row.targetHz * 2 ** (up / 12);
	const cents = rounded(centsBetween(tone.hz, soundedHz));
	const stiffness = openStiffness(tone, up);
	// A coefficient less sure than this says nothing.
	const isTold = stiffness.sd > 0 && stiffness.sd < 0.5 * stiffness.mean;
	const {periodTunerHz} = tone;
	return {
		string,
		how: asked.how,
		...(asked.fret !== undefined && {fret: asked.fret}),
		hz: tone.hz,
		cents,
		heard: {
			sdCents: rounded(Math.max(leastSdCents, tone.sdCents)),
			...(isTold && {stiffness}),
			...(periodTunerHz !== undefined && {tunerCents: rounded(centsBetween(periodTunerHz, soundedHz))}),
		},
		text: `${string}: ${cents < 0 ? '-' : '+'}${Math.abs(cents).toFixed(2)}`,
	};
}

/** What is stored is rounded to thousandths of a cent. */
const leastSdCents = 0.001;

function rounded(cents: number): number {
	return Math.round(cents * 1000) / 1000 + 0;
}

/**
 * The open string where its harmonic was asked for: the harmonic over the 12th
 * fret is its second partial, and where that lies is in the fitted law.
 */
export function harmonicInOpen(tone: HeardTone, asked: AskedPitch, seen: Seen): HeardReading {
	const {law, stiffnessSd, sdCents} = tone;
	const {periodTunerHz: _, ...rest} = tone;
	// 600 log₂((1 + 4B) / (1 + B)) cents above the octave: its slope by B, times what B may be off.
	const byStiffnessCents = ((600 * 3) / Math.LN2) * stiffnessSd;
	const octave = {
		...rest,
		hz: partialHz(law, 2),
		sdCents: Math.hypot(sdCents, byStiffnessCents),
		law: {idealHz: 2 * law.idealHz, stiffness: 4 * law.stiffness},
		stiffnessSd: 4 * stiffnessSd,
	};
	return readingOf(octave, asked.string, asked, seen);
}

/** What a stage made of the text, with all that was heard. */
export function markHeard({string, how, cents, hz, heard}: HeardReading, deeds: readonly Deed[]): readonly Deed[] {
	return deeds.map(deed =>
		deed.type === 'PitchRead' && deed.string === string
			? {...deed, how, cents, heard, entered: `heard ${hz.toFixed(3)} Hz`}
			: deed,
	);
}

/** `−12.3 ±0.2`. */
export function centsWords({cents, heard}: HeardReading): string {
	return heardCents({mean: cents, sd: heard.sdCents});
}

/** What a tuner would have shown of an open string, where that differs by more than the tolerance can bear. */
export function tunerWords({cents, how, heard: {tunerCents}}: HeardReading, {sheet}: Bench): string | undefined {
	if (how !== 'open' || tunerCents === undefined) return undefined;
	if (Math.abs(tunerCents - cents) <= sheet.openToleranceCents) return undefined;
	return words.tunerShows(formatCents(tunerCents));
}
