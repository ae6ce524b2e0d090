import {Matrix} from 'ml-matrix';
import type {Estimate} from '../numeric/estimate.ts';
import {measured, varianceAlong} from './gaussian.ts';
import {fretErrorCentsAt, type SaddleModel} from './saddle-model.ts';

/** One fret read on one string: mean of its plucks less the harmonic, against equal temperament, cents. */
export interface FretReading {
	readonly fret: number;
	readonly cents: number;
	readonly plucks: number;
}

/** What may lie behind a pattern over the frets. */
export const patternCauses = ['saddle', 'action', 'nut-height', 'nut-place', 'one-fret', 'old-string'] as const;
/**
 * - `saddle`: a saddle error alone, with what the model expects of a sound guitar;
 * - `action`: strings higher or lower than was entered;
 * - `nut-height`: the nut higher or lower than was entered: worst on the first frets;
 * - `nut-place`: the nut too far from, or too near, the first fret: all fretted notes shifted alike;
 * - `one-fret`: one fret worn, lifted or misplaced;
 * - `old-string`: no order in it: worn, dented or dirty string.
 */
export type PatternCause = (typeof patternCauses)[number];

export interface SaddlePattern {
	/** Likeliest first; probabilities add up to 1. */
	readonly causes: readonly {
		readonly cause: PatternCause;
		readonly probability: number;
		/** How much of it: mm for action, nut height and place (positive = higher, or farther back); cents for a fret. */
		readonly amount?: Estimate;
		/** The fret, for `one-fret`. */
		readonly fret?: number;
	}[];
	/** Saddle travel that leaves the least over these frets, mm, positive = back; of the likeliest story. */
	readonly travelMm: Estimate;
	/** What is left at each fret after that travel, and what a sound guitar would leave there, cents, in the order given. */
	readonly leftCents: readonly {readonly fret: number; readonly cents: number; readonly soundCents: number}[];
	/** Largest of what is left, cents ≥ 0. */
	readonly worstLeftCents: number;
}

/** How often each is met: judgement. Splits evenly over the frets for `one-fret`. */
const odds = {
	saddle: 0.6,
	action: 0.1,
	'nut-height': 0.1,
	'nut-place': 0.06,
	'one-fret': 0.07,
	'old-string': 0.07,
} as const;
/** How large they are when met: judgement. */
const sizes = {saddleMm: 3, actionMm: 0.4, nutHeightMm: 0.2, nutPlaceMm: 0.4, fretCents: 5, scatterCents: 4} as const;
/** Error of the harmonic's own reading, common to all frets, and of the model at any one fret, cents. */
const commonCents = 0.4;
const modelCents = 0.4;

/**
 * Tells a saddle error from what no saddle can mend, by how well each story
 * explains the readings. Over few or high frets action and saddle look alike:
 * then both keep their share, and moving the saddle mends either.
 *
 * @param readings At least three different frets.
 * @param saddleMm Where the saddle stands, mm behind the scale line; only the curve's slope depends on it.
 * @param pluckCents Noise of one pluck, cents.
 * @throws {RangeError} If there are fewer than three different frets.
 */
export function saddlePatternOf(
	model: SaddleModel,
	readings: readonly FretReading[],
	saddleMm: number,
	pluckCents: number,
): SaddlePattern {
	const frets = [...new Set(readings.map(({fret}) => fret))];
	if (frets.length < 3) {
		throw new RangeError(`saddlePatternOf: expected readings at three frets or more, got ${frets.length}`);
	}
	const stories = patternCauses.flatMap(cause =>
		cause === 'one-fret'
			? frets.map(fret => ({...fitted(model, readings, saddleMm, pluckCents, cause, fret), fret}))
			: [fitted(model, readings, saddleMm, pluckCents, cause)],
	);
	for (const story of stories) {
		story.logWeight += Math.log(odds[story.cause] / (story.cause === 'one-fret' ? frets.length : 1));
	}
	const top = Math.max(...stories.map(({logWeight}) => logWeight));
	const total = stories.reduce((sum, {logWeight}) => sum + Math.exp(logWeight - top), 0);
	const causes = stories
		.map(({logWeight, logLikelihood: _, saddle: __, ...story}) => ({
			...story,
			probability: Math.exp(logWeight - top) / total,
		}))
		.sort((one, other) => other.probability - one.probability);
	const best = stories.reduce((one, other) => (other.logWeight > one.logWeight ? other : one));
	const {travelMm, leftCents} = leastLeft(model, readings, saddleMm);
	return {
		causes,
		travelMm: {mean: travelMm, sd: best.saddle.sd},
		leftCents,
		worstLeftCents: Math.max(...leftCents.map(({cents}) => Math.abs(cents))),
	};
}

interface Fitted {
	readonly cause: PatternCause;
	readonly amount?: Estimate;
	readonly fret?: number;
	/** Saddle off its place, mm. */
	readonly saddle: Estimate;
	readonly logLikelihood: number;
	logWeight: number;
}

/** Unknowns: common offset, saddle, and the story's own amount; one reading after the other. */
function fitted(
	model: SaddleModel,
	readings: readonly FretReading[],
	saddleMm: number,
	pluckCents: number,
	cause: PatternCause,
	fret?: number,
): Fitted {
	let state: {mean: Float64Array; covariance: Matrix} = {
		mean: new Float64Array(3),
		covariance: Matrix.diag([commonCents ** 2, sizes.saddleMm ** 2, sizeOf(cause) ** 2]),
	};
	let logLikelihood = 0;
	for (const reading of readings) {
		const gradient = Float64Array.of(
			1,
			saddleColumn(model, reading.fret, saddleMm),
			ownColumn(model, reading.fret, saddleMm, cause, fret),
		);
		let predicted = fretErrorCentsAt(model, reading.fret, saddleMm);
		for (const [index, weight] of gradient.entries()) predicted += weight * state.mean[index]!;
		const variance =
			pluckCents ** 2 / reading.plucks + modelCents ** 2 + (cause === 'old-string' ? sizes.scatterCents ** 2 : 0);
		const total = varianceAlong(state.covariance, gradient) + variance;
		const innovation = reading.cents - predicted;
		logLikelihood -= 0.5 * (innovation ** 2 / total + Math.log(2 * Math.PI * total));
		state = measured(state, {gradient, innovation, variance});
	}
	const estimate = (at: number): Estimate => ({mean: state.mean[at]!, sd: Math.sqrt(state.covariance.get(at, at))});
	const hasAmount = cause !== 'saddle' && cause !== 'old-string';
	return {
		cause,
		...(hasAmount ? {amount: estimate(2)} : {}),
		...(fret === undefined ? {} : {fret}),
		saddle: estimate(1),
		logLikelihood,
		logWeight: logLikelihood,
	};
}

function sizeOf(cause: PatternCause): number {
	switch (cause) {
		case 'action':
			return sizes.actionMm;
		case 'nut-height':
			return sizes.nutHeightMm;
		case 'nut-place':
			return sizes.nutPlaceMm;
		case 'one-fret':
			return sizes.fretCents;
		case 'saddle':
		case 'old-string':
			return 0;
	}
}

/** Cents at a fret per mm of saddle, central difference. */
function saddleColumn(model: SaddleModel, fret: number, saddleMm: number): number {
	return (fretErrorCentsAt(model, fret, saddleMm + 0.1) - fretErrorCentsAt(model, fret, saddleMm - 0.1)) / 0.2;
}

/** Cents at a fret per unit of what the story is about. */
function ownColumn(model: SaddleModel, at: number, saddleMm: number, cause: PatternCause, fret?: number): number {
	const {path} = model;
	const {nutHeightM, saddleHeightM, nutSetbackM = 0} = path;
	const change = (by: Partial<SaddleModel['path']>) =>
		fretErrorCentsAt({...model, path: {...path, ...by}}, at, saddleMm) - fretErrorCentsAt(model, at, saddleMm);
	const stepM = 1e-5;
	switch (cause) {
		case 'action':
			// Raised at the saddle, twice what the 12th fret sees.
			return change({saddleHeightM: saddleHeightM + 2 * stepM}) * (0.001 / stepM);
		case 'nut-height':
			// The nut goes up, the saddle stays where it is over the frets.
			return change({nutHeightM: nutHeightM + stepM, saddleHeightM: saddleHeightM - stepM}) * (0.001 / stepM);
		case 'nut-place':
			return change({nutSetbackM: nutSetbackM + stepM}) * (0.001 / stepM);
		case 'one-fret':
			return at === fret ? 1 : 0;
		case 'saddle':
		case 'old-string':
			return 0;
	}
}

/** The travel that leaves the least sum of squares over the frets read, by the saddle alone. */
function leastLeft(model: SaddleModel, readings: readonly FretReading[], saddleMm: number) {
	const columns = readings.map(({fret}) => saddleColumn(model, fret, saddleMm));
	const best = (cents: readonly number[]) => {
		let [squares, products] = [0, 0];
		for (const [index, {plucks}] of readings.entries()) {
			squares += plucks * columns[index]! ** 2;
			products += plucks * columns[index]! * cents[index]!;
		}
		const travelMm = -products / squares;
		return {travelMm, left: cents.map((value, index) => value + travelMm * columns[index]!)};
	};
	const read = best(readings.map(({cents}) => cents));
	const sound = best(readings.map(({fret}) => fretErrorCentsAt(model, fret, saddleMm)));
	return {
		travelMm: read.travelMm,
		leftCents: readings.map(({fret}, index) => ({fret, cents: read.left[index]!, soundCents: sound.left[index]!})),
	};
}
