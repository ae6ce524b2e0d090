import {Matrix} from 'ml-matrix';
import {restAngleRad, stiffnessAt, travelAt} from '../physics/bridge.ts';
import {
	type Belief,
	bridgeOf,
	nominalMomentNm,
	nominalRateNmPerRad,
	slackPull,
	type StringStatus,
	wireFor,
} from './belief.ts';
import {forgotten, measured, propagated, replaced, spreadColumns, spreadPoints, varianceAlong} from './gaussian.ts';
import {afterMiss, sdOf} from './hands.ts';
import type {Happening} from './happening.ts';
import {held, holdCents, only, type Pose, poseOf} from './hold.ts';
import {noise, nominal} from './priors.ts';
import {type Linearised, linearisedAngle, linearisedCents, linearisedTail} from './reading-model.ts';

/** The belief after one happening. Order matters; nothing is changed in place. */
export function learn(belief: Belief, happening: Happening): Belief {
	const {rival, ...plain} = belief;
	const after = learned(plain, happening);
	if (!rival) return after.belief;
	const other = learned(rival.belief, happening);
	const lead = rival.lead + after.logLikelihood - other.logLikelihood;
	if (lead > settledLead) return after.belief;
	if (lead < -settledLead) return other.belief;
	return lead >= 0
		? {...after.belief, rival: {belief: other.belief, lead}}
		: {...other.belief, rival: {belief: after.belief, lead: -lead}};
}

/** ln of the odds at which one account of how the plate came in is dropped for good. */
const settledLead = 12;

interface Lesson {
	readonly belief: Belief;
	/** Of the reading, if there was one; constants common to all accounts left out. */
	readonly logLikelihood: number;
}

function learned(belief: Belief, happening: Happening): Lesson {
	const after = step(belief, happening);
	return {
		belief: after,
		logLikelihood: happening.kind === 'pitch' || happening.kind === 'tail' ? logLikelihoodOf(belief, happening) : 0,
	};
}

/** How well a reading was foretold; 0 where it only tells how far a peg was turned. */
function logLikelihoodOf(belief: Belief, reading: Happening & {readonly kind: 'pitch' | 'tail'}): number {
	if (
		reading.kind === 'pitch' &&
		(!belief.strings[reading.index]!.everRead || belief.strings[reading.index]!.turnedUnread)
	)
		return 0;
	const sd = reading.kind === 'pitch' ? (reading.sdCents ?? sdOf(belief.hands.reading).mean) : noise.tailM;
	const value = reading.kind === 'pitch' ? reading.cents : reading.tailM;
	const [prediction] = propagated(belief, x => [
		reading.kind === 'pitch' ? linearisedCents(belief, x, reading.index)?.value : linearisedTail(belief, x).value,
	]).estimates;
	if (!prediction) return -6;
	const variance = prediction.sd ** 2 + sd * sd;
	// Long tails: one reading alone does not decide.
	const misfit = Math.min((value - prediction.mean) ** 2 / variance, 12);
	return -0.5 * (misfit + Math.log(variance / (sd * sd)));
}

function step(belief: Belief, happening: Happening): Belief {
	switch (happening.kind) {
		case 'turned':
			return turned(adrift(belief, happening.index), happening.index, happening.aimCents);
		case 'pitch':
			return heard(
				adrift(belief, happening.index),
				happening.index,
				happening.cents,
				happening.sdCents ?? sdOf(belief.hands.reading).mean,
			);
		case 'tail':
			return measuredQuantity(adrift(belief), happening.tailM, noise.tailM, (by, x) => linearisedTail(by, x));
		case 'claw':
			return clawTurned(adrift(belief), happening.advanceM);
		case 'springs':
			return springsChanged(adrift(belief), happening.springs);
		case 'support-in':
			return supported(adrift(belief));
		case 'support-out': {
			const before = adrift(belief);
			return moved(before, {...before, blocked: false});
		}
		case 'clamped':
		case 'unclamped':
			return nutChanged(adrift(belief), happening.kind === 'clamped' ? 'locked' : 'open');
		case 'slack':
			return letOff(adrift(belief, happening.index), happening.index, {on: 'slack'});
		case 'off':
			return letOff(adrift(belief, happening.index), happening.index, {on: 'off'});
		case 'fitted':
			return letOff(adrift(belief, happening.index), happening.index, {on: 'slack', everRead: false, newness: 1});
		case 'pulled':
			return pulled(adrift(belief), happening.index);
		case 'slipped':
			return withAddedNoise(adrift(belief), happening.index, 80);
		case 'saddle':
			return withStatus(belief, happening.index, {
				saddleTravelM: belief.strings[happening.index]!.saddleTravelM + happening.travelM,
			});
		case 'arm':
			return touched(armMoved(adrift(belief)), undefined);
	}
}

function withStatus(belief: Belief, index: number, change: Partial<StringStatus>): Belief {
	return {...belief, strings: belief.strings.map((status, at) => (at === index ? {...status, ...change} : status))};
}

/** Pull that one cent is worth near pitch: tension goes with the square of pitch. */
const pullPerCent = Math.LN2 / 600;

function withAddedNoise(belief: Belief, index: number, sdCents: number, shiftCents = 0): Belief {
	const at = belief.layout.pull(index);
	const covariance = belief.covariance.clone();
	covariance.set(at, at, covariance.get(at, at) + (sdCents * pullPerCent) ** 2);
	const mean = Float64Array.from(belief.mean);
	mean[at]! += shiftCents * pullPerCent;
	return {...belief, mean, covariance};
}

/** A turn is only noted: how far it went, and what the others did meanwhile, comes out of the reading after it. */
function turned(belief: Belief, index: number, aimCents: number | undefined): Belief {
	return withStatus(belief, index, {
		on: 'sounding',
		turnedUnread: true,
		aimCents,
		adrift: false,
		newness: belief.strings[index]!.newness * 0.75,
	});
}

/** Pull of a string somebody has turned and not heard: anything from slack to far too sharp. */
const turnedPullSd = 1;

/** Something else happens before a turned string was heard: its own place is forgotten, and only the readings of the others tell of it. */
function adrift(belief: Belief, except?: number): Belief {
	return belief.strings.reduce((before, status, index) => {
		if (!status.turnedUnread || status.adrift || index === except) return before;
		const at = before.layout.pull(index);
		const mean = Float64Array.from(before.mean);
		if (mean[at]! < 0) mean[at] = 1;
		return withStatus({...before, mean, covariance: forgotten(before.covariance, at, turnedPullSd ** 2)}, index, {
			adrift: true,
			play: 0,
		});
	}, belief);
}

function heard(belief: Belief, index: number, cents: number, sdCents: number): Belief {
	const status = belief.strings[index]!;
	const known = withStatus(belief, index, {on: 'sounding', everRead: true, turnedUnread: false, adrift: false});
	const after =
		status.turnedUnread && !status.adrift
			? turnHeard(belief, known, index, cents, sdCents)
			: plainlyHeard(status, known, index, cents, sdCents);
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

function plainlyHeard(status: StringStatus, known: Belief, index: number, cents: number, sdCents: number): Belief {
	const predict = (by: Belief, x: Float64Array) => linearisedCents(by, x, index);
	if (status.everRead && !status.adrift && status.on === 'sounding') {
		const foreseen = linearisedCents(known, known.mean, index);
		const sd = foreseen && Math.hypot(Math.sqrt(varianceAlong(known.covariance, foreseen.gradient)), sdCents);
		if (foreseen && (isOnStop(known) || Math.abs(cents - foreseen.value) > doubtedSpreads * sd!))
			return surprised(known, index, cents, sdCents);
		const {hands} = known;
		const reading = foreseen
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

const surprisesFade = 0.85;
/** From so many, one string that slipped no longer explains it. */
const tooManySurprises = 1.6;

/** Surprise upon surprise means that the bridge is not what it was taken for: rate, balance and stop are opened again. */
function shaken(belief: Belief): Belief {
	const surprises = surprisesFade * belief.surprises + 1;
	if (surprises < tooManySurprises) return {...belief, surprises};
	const {rate, balance, stop} = belief.layout;
	const covariance = belief.covariance.clone();
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

/** Spreads from which a reading is rather put down to something that happened to this string alone. */
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
function measuredQuantity(
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

interface Change {
	/** Unknowns that a hand has changed, for a guess at them. */
	readonly settings?: (x: Float64Array) => Float64Array;
	/** A string turned until it was read at these cents. */
	readonly hold?: {readonly index: number; readonly cents: number; readonly sdCents: number};
}

/**
 * From one arrangement to another with whatever the bridge does in between:
 * every pull goes where wire slid to, by the map `held`, followed one spread
 * to either side along each column of the covariance's root.
 */
function moved(before: Belief, after: Belief, {settings = x => x, hold}: Change = {}): Belief {
	const {size} = before.layout;
	const holds = (cents: number) => (hold ? only(after, hold.index, cents) : after.strings.map(() => undefined));
	const step = (x: Float64Array, cents: number): Pose => held(after, poseOf(before, x), holds(cents), settings(x));
	const pose = step(before.mean, hold?.cents ?? 0);
	const ways = Matrix.zeros(size, size);
	for (const [k, point] of spreadPoints(before).entries()) {
		if (!point) continue;
		const high = step(point.up, hold?.cents ?? 0).x;
		const low = step(point.down, hold?.cents ?? 0).x;
		for (let row = 0; row < size; row++) ways.set(row, k, (high[row]! - low[row]!) / 2);
	}

	const covariance = ways.mmul(ways.transpose());
	if (hold) {
		const high = step(before.mean, hold.cents + 0.2).x;
		const low = step(before.mean, hold.cents - 0.2).x;
		const column = Matrix.columnVector(Array.from(high, (each, at) => ((each - low[at]!) / 0.4) * hold.sdCents));
		covariance.add(column.mmul(column.transpose()));
	}

	const result = {
		...after,
		mean: pose.x,
		covariance,
		lean: pose.lean,
		strings: after.strings.map((status, index) => ({...status, play: pose.play[index]!})),
	};
	return touched(withUnmodelled(result, poseOf(before, before.mean).angleRad, pose.angleRad, hold?.index), hold?.index);
}

/** What a movement of the bridge adds to the uncertainty of everything that was not turned. */
function withUnmodelled(belief: Belief, fromRad: number, toRad: number, except?: number): Belief {
	const bridge = bridgeOf(belief, belief.mean);
	const {layout} = belief;
	const covariance = belief.covariance.clone();
	const add = (at: number, sd: number) => covariance.set(at, at, covariance.get(at, at) + sd * sd);
	let mostM = 0;
	for (const [index, {on}] of belief.strings.entries()) {
		const toM = travelAt(bridge, index, toRad);
		const travelM = Math.abs(toM - travelAt(bridge, index, fromRad));
		mostM = Math.max(mostM, travelM);
		if (index === except || on !== 'sounding') continue;
		add(
			layout.pull(index),
			(noise.travelShare * travelM * stiffnessAt(bridge, index, toM)) / targetTensionN(belief, index),
		);
	}

	const isMoved = 1 - Math.exp(-mostM / smallTravelM);
	add(layout.balance, noise.frictionShare * belief.mean[layout.friction]! * isMoved);
	return {...belief, covariance};
}

/** Movements much smaller than this leave friction as it was, metres. */
const smallTravelM = 3e-6;

/** Tension at pitch, newtons, of a string as believed. */
function targetTensionN(belief: Belief, index: number): number {
	const wire = wireFor(belief, belief.mean, index);
	return wire.axialStiffnessN * wire.targetStrain;
}

/** The arm has been moved and let go: friction may hold either way. */
function armMoved(belief: Belief): Belief {
	const covariance = belief.covariance.clone();
	const {balance, friction} = belief.layout;
	covariance.set(balance, balance, covariance.get(balance, balance) + (0.6 * belief.mean[friction]!) ** 2);
	return {...belief, covariance, lean: 0, strings: belief.strings.map(status => ({...status, play: 0.5}))};
}

/** Any touch lets strings settle a little; new ones give more, and always flat. */
function touched(belief: Belief, except: number | undefined): Belief {
	return belief.strings.reduce(
		(all, status, index) =>
			status.on !== 'sounding' || index === except ? all : settling(all, index, 0.5, noise.touchCents),
		belief,
	);
}

/** A string gives by a share of what is usual for one as new as this: flat, by an unsure amount. */
function settling(belief: Belief, index: number, share: number, elseCents = 0): Belief {
	const {newness} = belief.strings[index]!;
	const giveCents = share * noise.newStringCents * newness;
	const settled = withAddedNoise(belief, index, Math.hypot(0.7 * giveCents, elseCents), -0.7 * giveCents);
	return newness === 0 ? settled : withStatus(settled, index, {newness: newness * (1 - 0.04 * share)});
}

/** Pulled all along its length: most of a new string's give is out, and friction holds from the other side. */
function pulled(belief: Belief, index: number): Belief {
	const {newness} = belief.strings[index]!;
	const giveCents = 0.7 + noise.pullCents * newness;
	const given = withAddedNoise(belief, index, 0.7 * giveCents, -giveCents);
	const strings = given.strings.map((status, at) => ({...status, play: at === index ? 0 : status.play}));
	// The plate dips and comes back, and wire slides at every nut.
	const shaken = given.strings.reduce(
		(all, {on}, at) =>
			at === index || on !== 'sounding' ? all : withAddedNoise(all, at, belief.blocked ? 0.2 : noise.dipCents),
		given,
	);
	return withStatus({...touched(shaken, index), strings, ...(belief.blocked ? {} : {lean: -1})}, index, {
		newness: newness * pullLeaves,
	});
}

/** Share of a new string's give that is left after it was pulled. */
const pullLeaves = 0.2;

function letOff(belief: Belief, index: number, change: Partial<StringStatus>): Belief {
	const at = belief.layout.pull(index);
	const after = withStatus(belief, index, {turnedUnread: false, adrift: false, ...change});
	const there = moved(belief, after, {
		settings: x => {
			const y = Float64Array.from(x);
			y[at] = slackPull;
			return y;
		},
	});
	return {...there, covariance: forgotten(there.covariance, at, 0.01)};
}

/** Claw screws advanced: level and as-it-came-in rise together. */
function clawTurned(belief: Belief, advanceM: number): Belief {
	const settings = (x: Float64Array): Float64Array => withClaw(belief, x, advanceM);
	const rise = settings(belief.mean)[belief.layout.balance]! - belief.mean[belief.layout.balance]!;
	const there = moved(belief, belief, {settings});
	const sd = (Math.abs(rise) * noise.clawM) / Math.max(1e-9, Math.abs(advanceM)) + 0.03 * Math.abs(rise);
	const covariance = there.covariance.clone();
	addCommon(covariance, [belief.layout.balance, belief.layout.home], sd * sd);
	return {...there, covariance};
}

/** A guess at the unknowns after the claw screws were advanced, metres. */
export function withClaw({layout, model}: Belief, x: ArrayLike<number>, advanceM: number): Float64Array {
	const rise =
		((advanceM * nominalRateNmPerRad(model)) / (nominal.springArmM * nominalMomentNm(model))) *
		Math.exp(x[layout.rate]! + x[layout.arm]! - x[layout.springArm]!);
	const y = Float64Array.from(x);
	y[layout.balance]! += rise;
	y[layout.home]! += rise;
	return y;
}

/** The same unknown error in several entries at once. */
function addCommon(covariance: Matrix, entries: readonly number[], variance: number): void {
	for (const row of entries) {
		for (const column of entries) covariance.set(row, column, covariance.get(row, column) + variance);
	}
}

function springsChanged(belief: Belief, springs: number): Belief {
	const {layout, model} = belief;
	const share = springs / model.springs;
	const there = moved(
		belief,
		{...belief, model: {...model, springs}},
		{
			settings: x => {
				const y = Float64Array.from(x);
				for (const at of [layout.balance, layout.home]) y[at] = (1 + y[at]!) * share - 1;
				return y;
			},
		},
	);
	const covariance = there.covariance.clone();
	addCommon(covariance, [layout.balance, layout.home], 0.1 ** 2);
	addCommon(covariance, [layout.rate], 0.1 ** 2);
	return {...there, covariance};
}

function supported(belief: Belief): Belief {
	const {value, gradient} = linearisedAngle(belief, belief.mean);
	const mean = Float64Array.from(belief.mean);
	mean[belief.layout.support] = value;
	const covariance = replaced(belief.covariance, belief.layout.support, gradient, 0.004 ** 2);
	return {...belief, mean, covariance, blocked: true};
}

/** Locking or opening the nut keeps the wire in front of it, but for what the clamp presses out of line. */
function nutChanged(belief: Belief, nut: 'open' | 'locked'): Belief {
	if (nut === belief.nut) return belief;
	const {layout} = belief;
	const covariance = belief.covariance.clone();
	for (const [index, {on}] of belief.strings.entries()) {
		const at = layout.pull(index);
		if (on === 'sounding') covariance.set(at, at, covariance.get(at, at) + (noise.clampCents * pullPerCent) ** 2);
	}

	const strings = belief.strings.map(status => ({...status, play: 0.5}));
	return touched({...belief, nut, covariance, strings}, undefined);
}
