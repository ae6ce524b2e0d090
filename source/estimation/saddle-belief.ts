import type {Estimate} from '../numeric/estimate.ts';
import {harmonicAboveOctaveCents} from '../physics/fretted-note.ts';
import {type SaddleCause, type Stay, type Stretch, storiesOf} from './saddle-causes.ts';
import type {SaddleHappening, SaddleNoise} from './saddle-history.ts';
import {asideCents, frettedCentsAt, type SaddleModel, saddleMmFor, slopeCentsPerMm} from './saddle-model.ts';
import {nextPluckNoise, pluckingNoise, type Plucks, plucksOf} from './saddle-plucks.ts';
import {added, entry, merged, renewed, type Strand, strandOf} from './saddle-strand.ts';

/** What is believed about one saddle now. A value; `saddleBeliefOf` makes it from a history. */
export interface SaddleBelief {
	readonly model: SaddleModel;
	/** Noise to expect of the next pluck, as this string's own plucks show it; the usual one while something odd is going on. */
	readonly noise: SaddleNoise;
	/** Fretted 12th minus harmonic at the present place, cents, positive = sharp. */
	readonly errorCents: Estimate;
	/** Saddle behind the scale line, mm. */
	readonly positionMm: Estimate;
	/** How strongly this string answers a move, over the model. */
	readonly slopeRatio: Estimate;
	/** Covariance of error and slope ratio, cents. */
	readonly errorSlopeCovariance: number;
	/** Both ways of sounding were read at this place without anything touched between. */
	readonly isRead: boolean;
	/** The newest fretted pluck less the newest harmonic without anything touched between, cents; undefined if not both read. */
	readonly newestCents?: number;
	/** Plucks at this place. */
	readonly plucks: {readonly harmonic: Plucks; readonly fretted: Plucks};
	readonly moves: number;
	/** Stories about the present place, likeliest first; their probabilities add up to 1. */
	readonly causes: readonly {readonly cause: SaddleCause; readonly probability: number}[];
}

/** What is known of the saddle's place before the history begins. */
export interface SaddleStart {
	/** mm behind the scale line, if measured or kept from last time. */
	readonly positionMm?: number;
	/** How strongly this string answered moves before, from an earlier set-up. */
	readonly slopeRatio?: Estimate;
}

/** A saddle nobody measured stands near where the model puts it: judgement, mm. */
const unknownPlaceSdMm = 2;

/** Story of the whole saddle so far: where it stands, and what its present stay has shown. */
interface Tale {
	readonly stay: Stay;
	readonly moves: number;
}

/**
 * The belief after a history. The error moves with the full model's curve
 * times this string's own slope ratio; each move widens it by how well a
 * saddle can be set; readings narrow it. Estimates are those of the
 * undisturbed story while it is likelier than not, else of all together.
 */
export function saddleBeliefOf(
	model: SaddleModel,
	start: SaddleStart,
	history: readonly SaddleHappening[],
	usual: SaddleNoise,
): SaddleBelief {
	return saddleTeller(model, start, usual)(history);
}

/**
 * `saddleBeliefOf` for many histories of one saddle, each mostly the one before
 * with an end of its own: what they share is told once. Same beliefs. Happenings
 * are the same when they are the same object.
 */
export function saddleTeller(
	model: SaddleModel,
	start: SaddleStart,
	usual: SaddleNoise,
): (history: readonly SaddleHappening[]) => SaddleBelief {
	let told: readonly SaddleHappening[] = [];
	/** One more than happenings: how things stood before each, and at the end. */
	const tales: Tale[] = [{stay: firstStay(model, start, usual), moves: 0}];
	let known: {readonly tale: Tale; readonly belief: SaddleBelief} | undefined;
	return history => {
		const fork = history.findIndex((happening, at) => happening !== told[at]);
		const shared = fork < 0 ? history.length : fork;
		tales.length = shared + 1;
		for (const happening of history.slice(shared)) tales.push(after(model, tales.at(-1)!, happening, usual));
		told = history;
		const tale = tales.at(-1)!;
		if (known?.tale !== tale) known = {tale, belief: summary(model, tale, usual)};
		return known.belief;
	};
}

function firstStay(model: SaddleModel, {positionMm, slopeRatio}: SaddleStart, noise: SaddleNoise): Stay {
	const placeMm = positionMm ?? saddleMmFor(model, 0);
	const slope = slopeCentsPerMm(model, placeMm);
	const placeSd = positionMm === undefined ? unknownPlaceSdMm : noise.rulerMm;
	const bare = strandOf(
		{error: frettedCentsAt(model, placeMm), slope: slopeRatio?.mean ?? 1, place: placeMm},
		{error: noise.modelCents, slope: slopeRatio?.sd ?? noise.slopeRatio},
	);
	const placed = (strand: Strand) => added(strand, {error: slope, place: 1}, {mean: 0, sd: placeSd});
	// A sheet may be wrong (scale, gauge, where the place was measured from): then the model's word counts little.
	const misled = added(bare, {error: 1}, {mean: 0, sd: misledCents});
	return {...stayOf(model, placed(bare), slope), misled: placed(misled)};
}

const misledCents = 15;

function stayOf(model: SaddleModel, arrival: Strand, slope: number, mirrored?: Strand): Stay {
	return {
		arrival: {...arrival, logWeight: 0},
		...(mirrored ? {mirrored: {...mirrored, logWeight: 0}} : {}),
		slope,
		harmonicAboveOctave: harmonicAboveOctaveCents(model.string.openStiffness),
		aside: asideCents(model),
		stretches: [[]],
	};
}

function after(model: SaddleModel, tale: Tale, happening: SaddleHappening, noise: SaddleNoise): Tale {
	const {stay} = tale;
	switch (happening.kind) {
		case 'read':
		case 'measured': {
			const stretch: Stretch = [...stay.stretches.at(-1)!, happening];
			return {...tale, stay: {...stay, stretches: [...stay.stretches.slice(0, -1), stretch]}};
		}

		case 'touched':
			return stay.stretches.at(-1)!.length === 0
				? tale
				: {...tale, stay: {...stay, stretches: [...stay.stretches, []]}};
		case 'moved': {
			const left = judged(tale, noise).strand;
			const [gone, mirrored] = [happening.travelMm, -happening.travelMm].map(travelMm =>
				travelled(model, left, travelMm, noise),
			) as [Strand, Strand];
			const slope = slopeCentsPerMm(model, gone.mean[entry.place]!);
			// A move too small to be told from its mirror image has no wrong way.
			const isTold = Math.abs(happening.travelMm) > 3 * noise.settingMm;
			return {
				stay: stayOf(model, gone, slope, isTold ? mirrored : undefined),
				moves: tale.moves + 1,
			};
		}

		case 'restrung': {
			const left = judged(tale, noise).strand;
			const placeMm = left.mean[entry.place]!;
			const fresh = renewed(left, 'error', frettedCentsAt(model, placeMm), 2 * noise.modelCents);
			return {stay: stayOf(model, fresh, slopeCentsPerMm(model, placeMm)), moves: tale.moves};
		}
	}
}

/**
 * What a stay leaves one with. Whether something is odd is judged by the usual
 * noise, lest odd plucks excuse themselves by their own scatter; how sure one
 * may be is judged by the scatter that the plucks show.
 */
function judged({stay, moves}: Tale, usual: SaddleNoise): Verdict {
	const stories = storiesOf(stay, usual, moves > 0);
	if (plainOf(stories).probability <= 0.5) {
		const weighed = stories.map(({strand, probability}) => ({...strand, logWeight: Math.log(probability + 1e-300)}));
		return {strand: merged(weighed), stories, noise: usual};
	}
	const noise = pluckingNoise(stay.stretches, usual);
	return {strand: plainOf(storiesOf(stay, noise, moves > 0)).strand, stories, noise};
}

interface Verdict {
	readonly strand: Strand;
	readonly stories: readonly Told[];
	readonly noise: SaddleNoise;
}

type Told = ReturnType<typeof storiesOf>[number];

function plainOf(stories: readonly Told[]): Told {
	return stories.find(({cause}) => cause === 'as-expected')!;
}

/** The strand after a move: error by the model's curve times the slope ratio, place by the travel, both by the same slip of the hand. */
function travelled(model: SaddleModel, strand: Strand, travelMm: number, noise: SaddleNoise): Strand {
	const fromMm = strand.mean[entry.place]!;
	const curve = frettedCentsAt(model, fromMm + travelMm) - frettedCentsAt(model, fromMm);
	const ratio = strand.mean[entry.slope]!;
	const moved = added(strand, {error: ratio * curve, place: travelMm}, {mean: 1, sd: 0});
	// The error takes the slope's own doubt with it: e + (ratio − mean ratio) × curve.
	const doubted = withSlopeDoubt(moved, curve);
	const slope = slopeCentsPerMm(model, fromMm + travelMm) * ratio;
	return added(doubted, {error: slope, place: 1}, {mean: 0, sd: noise.settingMm});
}

function withSlopeDoubt(strand: Strand, curve: number): Strand {
	const covariance = strand.covariance.clone();
	const {error, slope} = entry;
	const row = strand.covariance.getRow(slope);
	for (const [index, value] of row.entries()) {
		covariance.set(error, index, covariance.get(error, index) + curve * value);
	}
	const column = covariance.getColumn(slope);
	for (const [index, value] of column.entries()) {
		covariance.set(index, error, covariance.get(index, error) + curve * value);
	}
	return {...strand, covariance};
}

function summary(model: SaddleModel, tale: Tale, usual: SaddleNoise): SaddleBelief {
	const {stay, moves} = tale;
	const {strand, stories, noise} = judged(tale, usual);
	// What was checked stays checked when something else is touched afterwards.
	const newestCents = stay.stretches.map(newestDifference).findLast(cents => cents !== undefined);
	const estimate = (at: number): Estimate => ({
		mean: strand.mean[at]!,
		sd: Math.sqrt(Math.max(0, strand.covariance.get(at, at))),
	});
	return {
		model,
		noise: nextPluckNoise(stay.stretches, noise),
		errorCents: {mean: strand.mean[entry.error]!, sd: Math.hypot(estimate(entry.error).sd, usual.alikeCents)},
		positionMm: estimate(entry.place),
		slopeRatio: estimate(entry.slope),
		errorSlopeCovariance: strand.covariance.get(entry.error, entry.slope),
		isRead: stay.stretches.some(
			stretch =>
				stretch.some(sight => sight.kind === 'read' && sight.how === 'fretted') &&
				stretch.some(sight => sight.kind === 'read' && sight.how !== 'fretted'),
		),
		...(newestCents === undefined ? {} : {newestCents}),
		plucks: plucksOf(stay.stretches),
		moves,
		causes: stories
			.map(({cause, probability}) => ({cause, probability}))
			.sort((one, other) => other.probability - one.probability),
	};
}

function newestDifference(stretch: Stretch): number | undefined {
	const newest = (isFretted: boolean) =>
		stretch.findLast(sight => sight.kind === 'read' && (sight.how === 'fretted') === isFretted);
	const [fretted, harmonic] = [newest(true), newest(false)];
	return fretted?.kind === 'read' && harmonic?.kind === 'read' ? fretted.cents - harmonic.cents : undefined;
}

/** Fretted 12th minus harmonic to expect after a move of this travel, cents. */
export function errorAfterMove(belief: SaddleBelief, travelMm: number): Estimate {
	const {model, positionMm, errorCents, slopeRatio, errorSlopeCovariance, noise} = belief;
	if (travelMm === 0) return errorCents;
	const curve = frettedCentsAt(model, positionMm.mean + travelMm) - frettedCentsAt(model, positionMm.mean);
	const settingCents = slopeCentsPerMm(model, positionMm.mean + travelMm) * slopeRatio.mean * noise.settingMm;
	const variance =
		errorCents.sd ** 2 + 2 * curve * errorSlopeCovariance + (curve * slopeRatio.sd) ** 2 + settingCents ** 2;
	return {mean: errorCents.mean + slopeRatio.mean * curve, sd: Math.sqrt(Math.max(0, variance))};
}

/** Travel that is expected to bring the fretted 12th to `wishCents` over the harmonic, mm, with the spread of the best travel. */
export function travelFor(belief: SaddleBelief, wishCents: number): Estimate {
	let travelMm = 0;
	for (let round = 0; round < 8; round++) {
		const {model, positionMm, slopeRatio} = belief;
		const slope = slopeCentsPerMm(model, positionMm.mean + travelMm) * slopeRatio.mean;
		const curve = frettedCentsAt(model, positionMm.mean + travelMm) - frettedCentsAt(model, positionMm.mean);
		travelMm += (wishCents - belief.errorCents.mean - slopeRatio.mean * curve) / slope;
	}
	const slope = Math.abs(slopeCentsPerMm(belief.model, belief.positionMm.mean + travelMm) * belief.slopeRatio.mean);
	const {sd} = errorAfterMove({...belief, noise: {...belief.noise, settingMm: 0}}, travelMm || 1e-9);
	return {mean: travelMm, sd: sd / slope};
}
