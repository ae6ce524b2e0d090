import {Matrix} from 'ml-matrix';
import {restAngleRad} from '../physics/bridge.ts';
import {type Belief, bridgeOf, type StringStatus} from './belief.ts';
import {forgotten, measured, propagated, spreadColumns, varianceAlong} from './gaussian.ts';
import {afterMiss, heardSdCents, sdOf} from './hands.ts';
import type {Happening} from './happening.ts';
import {holdCents, only} from './hold.ts';
import {moved} from './moving.ts';
import {noise} from './priors.ts';
import {type Linearised, linearisedCents, linearisedTail} from './reading-model.ts';
import {settling, withAddedNoise, withStatus} from './settling.ts';

/** Pull of a string somebody has turned and not heard, share of the tension at pitch, one standard deviation: anything from slack to far too sharp. */
const turnedPullSd = 1;

/** Something else happens before a turned string was heard: its own place is forgotten, and only the readings of the others tell of it. */
export function adrift(belief: Belief, except?: number): Belief {
	let result = belief;
	for (const [index, status] of belief.strings.entries()) {
		if (!status.turnedUnread || status.adrift || index === except) continue;
		const at = belief.layout.pull(index);
		const mean = Float64Array.from(result.mean);
		if (mean[at]! < 0) mean[at] = 1;
		const covariance = forgotten(result.covariance, at, turnedPullSd ** 2);
		result = withStatus({...result, mean, covariance}, index, {adrift: true, play: 0});
	}

	return result;
}

type PitchHappening = Happening & {readonly kind: 'pitch'};

/** Uncertainty of a reading, cents: its own if it was heard, else the tuner's as this one has shown itself. */
export function sdOfReading({hands}: Belief, {sdCents, heardSdCents: fitSdCents}: PitchHappening): number {
	if (fitSdCents !== undefined) return heardSdCents(fitSdCents);
	return sdCents ?? sdOf(hands.reading).mean;
}

export function heard(belief: Belief, reading: PitchHappening): Belief {
	const {index, cents} = reading;
	const sdCents = sdOfReading(belief, reading);
	const status = belief.strings[index]!;
	const known = withStatus(belief, index, {on: 'sounding', everRead: true, turnedUnread: false, adrift: false});
	const after =
		status.turnedUnread && !status.adrift
			? turnHeard(belief, known, index, cents, sdCents)
			: plainlyHeard(status, known, {...reading, sdCents});
	return status.newness === 0 ? after : settling(after, index, 1);
}

/** Turned, then read: the reading says where the peg stopped, and the bridge has brought the others to wherever that puts them. */
function turnHeard(belief: Belief, known: Belief, index: number, cents: number, sdCents: number): Belief {
	const {aimCents} = belief.strings[index]!;
	const {hands} = known;
	// The tuner misled the hand once while turning and the reading once after it.
	const stopping =
		aimCents === undefined ? hands.stopping : afterMiss(hands.stopping, cents - aimCents, 2 * sdCents ** 2);
	return moved(belief, {...known, hands: {...hands, stopping}}, {hold: {index, cents, sdCents}});
}

function plainlyHeard(
	status: StringStatus,
	known: Belief,
	{index, cents, sdCents, heardSdCents: fitSdCents}: PitchHappening & {readonly sdCents: number},
): Belief {
	const predict = (by: Belief, x: Float64Array) => linearisedCents(by, x, index);
	if (status.everRead && !status.adrift && status.on === 'sounding') {
		const foreseen = linearisedCents(known, known.mean, index);
		const sd = foreseen && Math.hypot(Math.sqrt(varianceAlong(known.covariance, foreseen.gradient)), sdCents);
		if (foreseen && (isOnStop(known) || Math.abs(cents - foreseen.value) > doubtedSpreads * sd!))
			return surprised(known, index, cents, sdCents);
		const {hands} = known;
		// What was heard says nothing of the tuner.
		const isOfTuner = foreseen && fitSdCents === undefined;
		const reading = isOfTuner
			? afterMiss(hands.reading, cents - foreseen.value, sd! ** 2 - sdCents ** 2)
			: hands.reading;
		const surprises = surprisesFade * known.surprises;
		return measuredQuantity({...known, surprises, hands: {...hands, reading}}, cents, sdCents, predict);
	}

	const start = Float64Array.from(known.mean);
	const at = known.layout.pull(index);
	start[at] = holdCents(known, known.mean, only(known, index, cents)).x[at]!;
	return measuredQuantity(known, cents, sdCents, predict, start);
}

/** A surprise is forgotten by this at each reading that was none: half of it after four or five. Judgement. */
const surprisesFade = 0.85;
/** From so many, faded ones counted as less, one string that slipped no longer explains it: two with at most two readings between. Judgement. */
const tooManySurprises = 1.6;

/** Surprise upon surprise means that the bridge is not what it was taken for: rate, balance and stop are opened again. */
function shaken(belief: Belief): Belief {
	const surprises = surprisesFade * belief.surprises + 1;
	if (surprises < tooManySurprises) return {...belief, surprises};
	const {rate, balance, stop} = belief.layout;
	const covariance = belief.covariance.clone();
	// Added to what is left of the spread: shares of rate and balance, radians of the stop. Judgement.
	for (const [at, sd] of [
		[rate, 0.25],
		[balance, 0.02],
		[stop, 0.03],
	] as const) {
		covariance.set(at, at, covariance.get(at, at) + sd * sd);
	}

	return {...belief, covariance, surprises: 0};
}

/** Whether the plate is believed to lie on its back stop: there it answers to nothing, but may be about to. */
function isOnStop(belief: Belief): boolean {
	if (belief.blocked) return false;
	const bridge = bridgeOf(belief, belief.mean);
	return restAngleRad(bridge) >= bridge.backStopRad - 1e-9;
}

/** Spreads, of prediction and reading together, from which (one in 16,000 by chance) a reading is rather put down to something that happened to this string alone. */
const doubtedSpreads = 4;

/**
 * A reading far from all expectation. If a kink within the spread explains it
 * (the plate has left its stop, or come to it), it is learned from with that
 * in view. If not, it says that the string itself has moved, not that all
 * that was learned of the bridge is wrong: its place is set free.
 */
function surprised(belief: Belief, index: number, cents: number, sdCents: number): Belief {
	const {estimates, loadings} = propagated(belief, x => [linearisedCents(belief, x, index)?.value]);
	const [foreseen] = estimates;
	if (!foreseen) return belief;
	const innovation = cents - foreseen.mean;
	const total = foreseen.sd ** 2 + sdCents ** 2;
	if (Math.abs(innovation) > doubtedSpreads * Math.sqrt(total)) {
		const freed = withAddedNoise(shaken(belief), index, innovation);
		return measuredQuantity(freed, cents, sdCents, (by, x) => linearisedCents(by, x, index));
	}

	const gain = new Float64Array(belief.layout.size);
	for (const [k, column] of spreadColumns(belief.covariance).entries()) {
		for (let at = 0; at < gain.length; at++) gain[at]! += column[at]! * loadings[0]![k]!;
	}

	const way = Matrix.columnVector(gain);
	return {
		...belief,
		mean: belief.mean.map((value, at) => value + (gain[at]! * innovation) / total),
		covariance: Matrix.sub(belief.covariance, way.mmul(way.transpose()).div(total)),
	};
}

/**
 * A measurement of a nonlinear quantity: Kalman's update, linearised again at
 * its own result until that stands still (Gauss-Newton on this reading).
 */
export function measuredQuantity(
	belief: Belief,
	value: number,
	sd: number,
	predict: (belief: Belief, x: Float64Array) => Linearised | undefined,
	start = belief.mean,
): Belief {
	let at = start;
	let before = belief.mean;
	let result: {mean: Float64Array; covariance: Belief['covariance']} = belief;
	for (let round = 0; round < 6; round++) {
		const prediction = predict(belief, at);
		if (!prediction) {
			// The step went over into slackness: take half of it.
			at = at.map((each, index) => (each + before[index]!) / 2);
			continue;
		}

		before = at;
		let innovation = value - prediction.value;
		for (let index = 0; index < at.length; index++) {
			innovation -= prediction.gradient[index]! * (belief.mean[index]! - at[index]!);
		}

		result = measured(belief, {gradient: prediction.gradient, innovation, variance: sd * sd});
		let step = 0;
		for (let index = 0; index < at.length; index++) step = Math.max(step, Math.abs(result.mean[index]! - at[index]!));
		at = result.mean;
		if (step < 1e-5) break;
	}

	return {...belief, mean: result.mean, covariance: result.covariance};
}

/** How well a reading was foretold; 0 where it only tells how far a peg was turned. */
export function logLikelihoodOf(belief: Belief, reading: Happening & {readonly kind: 'pitch' | 'tail'}): number {
	if (
		reading.kind === 'pitch' &&
		(!belief.strings[reading.index]!.everRead || belief.strings[reading.index]!.turnedUnread)
	)
		return 0;
	const sd = reading.kind === 'pitch' ? sdOfReading(belief, reading) : noise.tailM;
	const value = reading.kind === 'pitch' ? reading.cents : reading.tailM;
	const [prediction] = propagated(belief, x => [
		reading.kind === 'pitch' ? linearisedCents(belief, x, reading.index)?.value : linearisedTail(belief, x).value,
	]).estimates;
	// Not foretold at all: as bad as the worst misfit below.
	if (!prediction) return -6;
	const variance = prediction.sd ** 2 + sd * sd;
	// Long tails: one reading alone, beyond three and a half spreads, does not decide. Judgement.
	const misfit = Math.min((value - prediction.mean) ** 2 / variance, 12);
	return -0.5 * (misfit + Math.log(variance / (sd * sd)));
}
