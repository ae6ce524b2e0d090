import type {CoarseTone} from './coarse-pitch.ts';
import {fitPartials, type PartialFit, type Stretch} from './fit-partials.ts';
import {type Gap, hiddenBreak} from './gaps.ts';
import {type PartialTrack, trackPartials} from './partial-tracks.ts';
import {type PluckSound, stretchesBetween} from './pluck-sound.ts';
import type {ToneLines} from './tone-lines.ts';

/** Quick and coarse, for a moving picture; or careful, for a reading. */
export type Care = 'quick' | 'careful';

/** Where to look for partials: a law near the truth, and which partials had lines. */
export type Start = Pick<CoarseTone, 'law' | 'numbers'>;

export interface FittedSound {
	readonly start: Start;
	readonly fit: PartialFit;
	readonly stretches: readonly {readonly stretch: Stretch; readonly from: number}[];
}

/** Highest frequency used: above it partials are weak, short and dense. */
const highestHz = 5500;
const mostPartials = {quick: 12, careful: 30} as const;
/** Rounds of taking away what rings beside. */
const clearings = {quick: 0, careful: 2} as const;

/** Tracks the partials through all unbroken stretches of the sound and fits them. */
export function fitSound(sound: PluckSound, lines: ToneLines, start: Start, care: Care): FittedSound | undefined {
	const {samples, sampleRateHz, sinceOnsetS, gaps = []} = sound;
	const {law, numbers} = start;
	const heard = Math.max(4, (numbers.at(-1) ?? 1) + 2);
	const count = Math.max(1, Math.min(mostPartials[care], heard, Math.floor(highestHz / law.idealHz)));
	const tracked = Array.from({length: 2 * count + 1}, (_, i) => (i + 1) / 2);
	const stretches = stretchesBetween(samples, gaps).map(([from, to]) => ({
		stretch: {
			tracks: trackPartials(samples.subarray(from, to), sampleRateHz, law, tracked),
			firstS: sinceOnsetS + from / sampleRateHz,
		},
		from,
	}));
	const beside = besideOf(lines, stretches[0]?.stretch.tracks.tracks ?? []);
	const fit = fitPartials(
		stretches.map(s => s.stretch),
		law,
		{clearings: clearings[care], beside},
	);
	return fit && {start, fit, stretches};
}

/** Moments where samples went missing unmarked, as gaps in the samples of the pluck. */
export function hiddenBreaks({fit, stretches}: FittedSound, sampleRateHz: number): readonly Gap[] {
	return stretches.flatMap(({stretch, from}) => {
		const found = hiddenBreak(stretch, fit, sampleRateHz);
		return found ? [[found[0] + from, found[1] + from] as const] : [];
	});
}

/** A share of this that rang before is felt. */
const felt = 0.05;
/** How much of what rang before is left while the pluck is heard. */
const stillRinging = 0.7;

/** Share of each partial that rang there before the pluck; none if nearly all of them did: then it was this same string. */
function besideOf(lines: ToneLines, tracks: readonly PartialTrack[]): (n: number) => number {
	const shares = new Map<number, number>();
	for (const {n, referenceHz, re, im} of tracks) {
		if (!Number.isInteger(n)) continue;
		const middle = re.length >> 1;
		shares.set(n, lines.before(referenceHz) / Math.max(1e-9, Math.hypot(re[middle] ?? 0, im[middle] ?? 0)));
	}

	const feltCount = [...shares.values()].filter(share => share > felt).length;
	if (feltCount > 0.7 * shares.size) return () => 0;
	return n => stillRinging * Math.min(1, shares.get(n) ?? 0);
}
