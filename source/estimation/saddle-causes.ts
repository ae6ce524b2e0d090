import {heardSdCents} from './hands.ts';
import type {SaddleHappening, SaddleNoise} from './saddle-history.ts';
import {added, merged, mixedInto, renewed, seen, type Strand} from './saddle-strand.ts';

/** Stories about what happened since the saddle came to its present place. */
export const saddleCauses = ['as-expected', 'crept', 'slipped', 'bent', 'wrong-way'] as const;
/**
 * - `as-expected`: the saddle stands where it was said, the notes were read cleanly;
 * - `crept`: its hold-down screw let it slide towards the neck: sharper than foretold;
 * - `slipped`: the string gave between two readings: all that was read later is flat;
 * - `bent`: the fretted note was bent sideways or pressed hard: sharp and scattered;
 * - `wrong-way`: it was moved by the right amount in the other direction.
 */
export type SaddleCause = (typeof saddleCauses)[number];

/** What was seen while the saddle stood at one place; a new stretch begins when something was touched. */
export type Stretch = readonly Extract<SaddleHappening, {kind: 'read' | 'measured'}>[];

export interface Stay {
	/** Belief on arrival, should all be as expected. */
	readonly arrival: Strand;
	/** The same, should what was entered about the string mislead the model; only before any move. */
	readonly misled?: Strand;
	/** Belief on arrival, had the saddle gone the other way; absent when it did not move, or hardly. */
	readonly mirrored?: Strand;
	/** Cents per mm of saddle travel, negative. */
	readonly slope: number;
	/** Harmonic over the octave of the open string, cents. */
	readonly harmonicAboveOctave: number;
	/** What the finger adds to a fretted note on the mean, cents. */
	readonly aside: number;
	readonly stretches: readonly Stretch[];
}

/** How often each is met at a bench: judgement, no source. After a move, and without one. */
const oddsAfterMove = {'as-expected': 0.86, crept: 0.06, slipped: 0.03, bent: 0.04, 'wrong-way': 0.01} as const;
const oddsUnmoved = {'as-expected': 0.92, crept: 0.01, slipped: 0.03, bent: 0.04, 'wrong-way': 0} as const;

/** How often what was entered does not fit the guitar: judgement. */
const oddsMisled = 0.1;

/** How large they are when they happen: judgement. */
const creepMm = {mean: 1.2, sd: 0.8};
const creepDropCents = {mean: 8, sd: 20};
const slipCents = {mean: 8, sd: 8};
const bendCents = {mean: 6, sd: 4};
const bendScatterCents = 3;

/** Pitch before a string was read at a new stretch: anywhere near the target. */
const pitchSdCents = 200;

/** Each story's belief after all that was seen at this place; weights as probabilities. */
export function storiesOf(
	stay: Stay,
	noise: SaddleNoise,
	moved: boolean,
): readonly {readonly cause: SaddleCause; readonly probability: number; readonly strand: Strand}[] {
	const odds = moved ? oddsAfterMove : oddsUnmoved;
	const telling = {...stay, stretches: stay.stretches.filter(saysSomething)};
	const told = saddleCauses.flatMap(cause => {
		const strands = strandsOf(cause, telling, noise);
		if (odds[cause] === 0 || strands.length === 0) return [];
		const strand = merged(strands);
		return [{cause, logWeight: Math.log(odds[cause]) + strand.logWeight, strand}];
	});
	const top = Math.max(...told.map(({logWeight}) => logWeight));
	const total = told.reduce((sum, {logWeight}) => sum + Math.exp(logWeight - top), 0);
	return told.map(({cause, logWeight, strand}) => ({
		cause,
		strand,
		probability: Math.exp(logWeight - top) / total,
	}));
}

/** A pitch read once, nothing else beside it, fits every story alike. */
function saysSomething(stretch: Stretch): boolean {
	const [first] = stretch;
	return stretch.length > 1 || (first !== undefined && (first.kind === 'measured' || first.how === 'fretted'));
}

function strandsOf(cause: SaddleCause, stay: Stay, noise: SaddleNoise): readonly Strand[] {
	const {arrival, slope} = stay;
	switch (cause) {
		case 'as-expected':
			return [
				{...arrival, logWeight: stay.misled ? Math.log(1 - oddsMisled) : 0},
				...(stay.misled ? [{...stay.misled, logWeight: Math.log(oddsMisled)}] : []),
			].map(strand => live(strand, stay, noise, {}));
		case 'crept': {
			const slid = added(arrival, {error: -slope, place: -1}, creepMm);
			// It may have come to rest before the first reading, or slide on from reading to reading.
			return [live(slid, stay, noise, {}), live(slid, stay, noise, {slides: true})].map(halved);
		}

		case 'slipped': {
			const chances = stay.stretches.flatMap((stretch, at) =>
				stretch.slice(1).map((_, index) => ({stretch: at, before: index + 1})),
			);
			const odd = renewed(arrival, 'oddity', slipCents.mean, slipCents.sd);
			return chances.map(slip => {
				const strand = live(odd, stay, noise, {slip});
				return {...strand, logWeight: strand.logWeight - Math.log(chances.length)};
			});
		}

		case 'bent':
			return [live(renewed(arrival, 'oddity', bendCents.mean, bendCents.sd), stay, noise, {bent: true})];
		case 'wrong-way':
			return stay.mirrored ? [live(stay.mirrored, stay, noise, {})] : [];
	}
}

interface Story {
	readonly slides?: boolean;
	readonly bent?: boolean;
	readonly slip?: {readonly stretch: number; readonly before: number};
}

function live(start: Strand, stay: Stay, noise: SaddleNoise, story: Story): Strand {
	let strand = start;
	for (const [at, stretch] of stay.stretches.entries()) {
		strand = renewed(strand, 'pitch', 0, pitchSdCents);
		for (const [index, sight] of stretch.entries()) {
			if (story.slip?.stretch === at && story.slip.before === index) {
				strand = mixedInto(strand, 'pitch', {oddity: -1});
			}
			if (story.slides && index > 0) strand = added(strand, {pitch: -1}, creepDropCents);
			strand = sighted(strand, sight, stay, noise, story);
		}
	}
	return strand;
}

function sighted(strand: Strand, sight: Stretch[number], stay: Stay, noise: SaddleNoise, story: Story): Strand {
	if (sight.kind === 'measured') return seen(strand, {place: 1}, sight.positionMm, noise.rulerMm ** 2);
	const tuner = sight.heardSdCents === undefined ? noise.tunerCents ** 2 : heardSdCents(sight.heardSdCents) ** 2;
	switch (sight.how) {
		case 'harmonic':
			return seen(strand, {pitch: 1}, sight.cents, tuner);
		case 'open':
			return seen(strand, {pitch: 1}, sight.cents + stay.harmonicAboveOctave, tuner + 0.1 ** 2);
		case 'fretted': {
			const scatter = story.bent ? bendScatterCents ** 2 : 0;
			const weights = {pitch: 1, error: 1, ...(story.bent ? {oddity: 1} : {})};
			return seen(strand, weights, sight.cents - stay.aside, tuner + noise.pressCents ** 2 + scatter);
		}
	}
}

function halved(strand: Strand): Strand {
	return {...strand, logWeight: strand.logWeight - Math.LN2};
}
