import {Matrix} from 'ml-matrix';
import {travelAt} from '../physics/lever.ts';
import {stiffnessAt} from '../physics/elastic-string.ts';
import {
	angleFor,
	type Belief,
	bridgeOf,
	nominalMomentNm,
	nominalRateNmPerRad,
	type StringStatus,
	wireFor,
} from './belief.ts';
import {forgotten, measured, replaced} from './gaussian.ts';
import type {Happening} from './happening.ts';
import {holdCents, only} from './hold.ts';
import {nominal, noise, priorSd} from './priors.ts';
import {type Linearised, linearisedAngle, linearisedCents, linearisedTail} from './reading-model.ts';

/** The belief after one happening. Order matters; nothing is changed in place. */
export function learn(belief: Belief, happening: Happening): Belief {
	switch (happening.kind) {
		case 'turned':
			return turned(belief, happening.index);
		case 'pitch':
			return heard(belief, happening.index, happening.cents, happening.sdCents ?? noise.readingCents);
		case 'tail':
			return measuredQuantity(belief, happening.tailM, noise.tailM, x => linearisedTail(belief, x));
		case 'claw':
			return clawTurned(belief, happening.advanceM);
		case 'springs':
			return springsChanged(belief, happening.springs);
		case 'support-in':
			return supported(belief);
		case 'support-out':
			return moving(belief, {...belief, blocked: false});
		case 'clamped':
		case 'unclamped':
			return nutChanged(belief, happening.kind === 'clamped' ? 'locked' : 'open');
		case 'slack':
			return slackened(belief, happening.index, {on: 'slack', turnedUnread: false});
		case 'off':
			return slackened(belief, happening.index, {on: 'off', turnedUnread: false});
		case 'fitted':
			return slackened(belief, happening.index, {on: 'slack', everRead: false, turnedUnread: false, newness: 1});
		case 'pulled':
			return pulled(belief, happening.index);
		case 'slipped':
			return withAddedNoise(belief, happening.index, 80);
		case 'saddle':
			return withStatus(belief, happening.index, {
				saddleTravelM: belief.strings[happening.index]!.saddleTravelM + happening.travelM,
			});
		case 'arm':
			return touched(renewedFriction(belief, Number.POSITIVE_INFINITY), undefined);
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

function turned(belief: Belief, index: number): Belief {
	const at = belief.layout.pull(index);
	const mean = Float64Array.from(belief.mean);
	if (belief.strings[index]!.on !== 'sounding') mean[at] = 1;
	// The others stay where they were believed until the reading tells how far this one went.
	const covariance = forgotten(belief.covariance, at, turnedPullSd ** 2);
	return withStatus({...belief, mean, covariance}, index, {
		on: 'sounding',
		turnedUnread: true,
		newness: belief.strings[index]!.newness * 0.75,
	});
}

/** Pull of a string somebody has turned, before it is heard: anything from slack to far too sharp. */
const turnedPullSd = 1;

function heard(belief: Belief, index: number, cents: number, sdCents: number): Belief {
	const status = belief.strings[index]!;
	const unsure = status.turnedUnread || !status.everRead || status.on !== 'sounding';
	let before: Belief = withStatus(belief, index, {on: 'sounding', everRead: true, turnedUnread: false});
	let start = before.mean;
	if (unsure) {
		const held = holdCents(before, before.mean, only(before, index, cents));
		if (status.turnedUnread && !before.blocked) {
			before = moved(before, angleFor(belief, belief.mean), held.angleRad, index);
		}

		start = Float64Array.from(before.mean);
		start[before.layout.pull(index)] = held.x[before.layout.pull(index)]!;
	}

	const after = measuredQuantity(before, cents, sdCents, x => linearisedCents(before, x, index), start);
	return status.newness === 0 ? after : settling(after, index, 1);
}

/**
 * A measurement of a nonlinear quantity: Kalman's update, linearised again at
 * its own result until that stands still (Gauss-Newton on this reading).
 */
function measuredQuantity(
	belief: Belief,
	value: number,
	sd: number,
	predict: (x: Float64Array) => Linearised | undefined,
	start = belief.mean,
): Belief {
	let at = start;
	let before = belief.mean;
	let result: {mean: Float64Array; covariance: Belief['covariance']} = belief;
	for (let round = 0; round < 6; round++) {
		const prediction = predict(at);
		if (!prediction) {
			// The step went over into slackness: take half of it.
			at = at.map((value, index) => (value + before[index]!) / 2);
			continue;
		}

		before = at;
		let innovation = value - prediction.value;
		for (let index = 0; index < at.length; index++) {
			innovation -= prediction.gradient[index]! * (belief.mean[index]! - at[index]!);
		}

		result = measured(belief, {gradient: prediction.gradient, innovation, variance: sd * sd});
		const step = Math.max(...result.mean.map((next, index) => Math.abs(next - at[index]!)));
		at = result.mean;
		if (step < 1e-5) break;
	}

	return {...belief, mean: result.mean, covariance: result.covariance};
}

/** What a movement of the bridge adds to the uncertainty of everything that was not turned. */
function moved(belief: Belief, fromRad: number, toRad: number, except?: number): Belief {
	const bridge = bridgeOf(belief, belief.mean);
	const lever = bridge.strings[0]!;
	const travelM = Math.abs(travelAt(lever, toRad) - travelAt(lever, fromRad));
	const covariance = belief.covariance.clone();
	for (const [index, string] of bridge.strings.entries()) {
		if (index === except) continue;
		const at = belief.layout.pull(index);
		const perMetre = stiffnessAt(string, travelAt(string, toRad)) / targetTensionN(belief, index);
		covariance.set(at, at, covariance.get(at, at) + (noise.travelShare * travelM * perMetre) ** 2);
	}

	return touched(renewedFriction({...belief, covariance}, travelM), except);
}

/** Tension at pitch, newtons, of a string as believed. */
function targetTensionN(belief: Belief, index: number): number {
	const wire = wireFor(belief, belief.mean, index);
	return wire.axialStiffnessN * wire.targetStrain;
}

/** From one arrangement to another with whatever the bridge does in between. */
function moving(before: Belief, after: Belief): Belief {
	return moved(after, angleFor(before, before.mean), angleFor(after, after.mean));
}

function renewedFriction(belief: Belief, travelM: number): Belief {
	const at = belief.layout.friction;
	const kept = Math.exp(-travelM / noise.frictionRenewalM);
	const row = new Float64Array(belief.layout.size);
	row[at] = kept;
	const mean = Float64Array.from(belief.mean);
	mean[at]! *= kept;
	return {...belief, mean, covariance: replaced(belief.covariance, at, row, (1 - kept * kept) * priorSd.friction ** 2)};
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

function pulled(belief: Belief, index: number): Belief {
	const {newness} = belief.strings[index]!;
	const giveCents = 0.5 + noise.firstPullCents * newness;
	return withStatus(withAddedNoise(belief, index, 0.7 * giveCents, -giveCents), index, {newness: newness * 0.4});
}

/** Pull of a slack string: so far below zero that no tilt of the bridge tightens it. */
const slackPull = -4;

function slackened(belief: Belief, index: number, status: Partial<StringStatus>): Belief {
	const at = belief.layout.pull(index);
	const mean = Float64Array.from(belief.mean);
	mean[at] = slackPull;
	const after = withStatus({...belief, mean, covariance: forgotten(belief.covariance, at, 0.01)}, index, status);
	return moving(belief, after);
}

function clawTurned(belief: Belief, advanceM: number): Belief {
	const {layout, model} = belief;
	const rise =
		((advanceM * nominalRateNmPerRad(model)) / (nominal.springArmM * nominalMomentNm(model))) *
		Math.exp(belief.mean[layout.rate]! + belief.mean[layout.arm]! - belief.mean[layout.springArm]!);
	// Level and as-it-came-in rise together: x' = A x + noise.
	const map = Matrix.identity(layout.size);
	const mean = Float64Array.from(belief.mean);
	for (const at of [layout.balance, layout.home]) {
		mean[at]! += rise;
		map.set(at, layout.rate, rise);
		map.set(at, layout.arm, rise);
		map.set(at, layout.springArm, -rise);
	}

	const sd = (Math.abs(rise) * noise.clawM) / Math.max(1e-9, Math.abs(advanceM)) + 0.03 * Math.abs(rise);
	const covariance = map.mmul(belief.covariance).mmul(map.transpose());
	addCommon(covariance, [layout.balance, layout.home], sd * sd);
	return moving(belief, {...belief, mean, covariance});
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
	const map = Matrix.identity(layout.size);
	const mean = Float64Array.from(belief.mean);
	for (const at of [layout.balance, layout.home]) {
		mean[at] = (1 + mean[at]!) * share - 1;
		map.set(at, at, share);
	}

	const covariance = map.mmul(belief.covariance).mmul(map.transpose());
	addCommon(covariance, [layout.balance, layout.home], 0.1 ** 2);
	addCommon(covariance, [layout.rate], 0.1 ** 2);
	return moving(belief, {...belief, model: {...model, springs}, mean, covariance});
}

function supported(belief: Belief): Belief {
	const {value, gradient} = linearisedAngle(belief, belief.mean);
	const mean = Float64Array.from(belief.mean);
	mean[belief.layout.support] = value;
	const covariance = replaced(belief.covariance, belief.layout.support, gradient, 0.004 ** 2);
	return {...belief, mean, covariance, blocked: true};
}

/** Locking or opening the nut keeps each tension but changes how stiffly the string answers the bridge. */
function nutChanged(belief: Belief, nut: 'open' | 'locked'): Belief {
	if (nut === belief.nut) return belief;
	const {layout} = belief;
	const angle = linearisedAngle(belief, belief.mean);
	const changed: Belief = {...belief, nut};
	const mean = Float64Array.from(belief.mean);
	// All strings change at once through one map, x' = A x + noise.
	const map = Matrix.identity(layout.size);
	const added = new Float64Array(layout.size);
	for (const [index, string] of angle.bridge.strings.entries()) {
		if (belief.strings[index]!.on !== 'sounding') continue;
		// T = pull T₀ + (E A / shared) travel stays the same, so the pull takes up what the stiffness changes.
		const was = stiffnessAt(string, travelAt(string, angle.value));
		const is = (was * string.sharedLengthM) / wireFor(changed, belief.mean, index).sharedLengthM;
		const perTravel = (was - is) / targetTensionN(belief, index);
		const at = layout.pull(index);
		mean[at]! += perTravel * travelAt(string, angle.value);
		for (const [column, part] of angle.gradient.entries()) {
			map.set(at, column, map.get(at, column) + perTravel * part * string.armM);
		}

		added[at] = (noise.clampCents * pullPerCent) ** 2;
	}

	const covariance = map
		.mmul(belief.covariance)
		.mmul(map.transpose())
		.add(Matrix.diag(Array.from(added)));
	return touched({...changed, mean, covariance}, undefined);
}
