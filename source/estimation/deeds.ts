import type {Matrix} from 'ml-matrix';
import {type Belief, nominalMomentNm, nominalRateNmPerRad, slackPull, type StringStatus} from './belief.ts';
import {forgotten, replaced} from './gaussian.ts';
import {moved} from './moving.ts';
import {noise, nominal} from './priors.ts';
import {linearisedAngle, linearisedLevel} from './reading-model.ts';
import {pullPerCent, touched, withAddedNoise, withStatus} from './settling.ts';

/**
 * A turn is only noted: how far it went, and what the others did meanwhile,
 * comes out of the reading after it. Winding pulls a new string's give out by
 * a quarter (judgement).
 *
 * @param aimCents Where the hand meant to stop, cents of target; undefined when it followed no aim.
 */
export function turned(belief: Belief, index: number, aimCents: number | undefined): Belief {
	return withStatus(belief, index, {
		on: 'sounding',
		turnedUnread: true,
		aimCents,
		adrift: false,
		newness: belief.strings[index]!.newness * 0.75,
	});
}

/** The arm has been moved and let go, or a night has passed: friction may hold either way, six tenths of itself as one standard deviation, about what even odds over its range have (1/√3). */
export function armMoved(belief: Belief): Belief {
	const covariance = belief.covariance.clone();
	const {balance, friction} = belief.layout;
	covariance.set(balance, balance, covariance.get(balance, balance) + (0.6 * belief.mean[friction]!) ** 2);
	const swung: Belief = {
		...belief,
		covariance,
		lean: 0,
		strings: belief.strings.map(status => ({...status, play: 0.5})),
	};
	return belief.strings.reduce(
		(all, {on}, index) => (on === 'sounding' ? withAddedNoise(all, index, swungCents) : all),
		swung,
	);
}

/** Wire that slid at saddle and nut while the arm was moved need not come all the way back, cents. Judgement. */
const swungCents = 1;

/**
 * A string let off: slack, taken off, or put on and not yet tuned. The others
 * go where the balance without it puts them.
 *
 * @param change What becomes of the string itself.
 */
export function letOff(belief: Belief, index: number, change: Partial<StringStatus>): Belief {
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

/**
 * Claw screws advanced: level and as-it-came-in rise together. Unsure by how
 * far screws can be set (`noise.clawM`), and by 3 % of the rise for what claw
 * and springs do beside the straight line (judgement).
 *
 * @param advanceM Mean of both screws, metres, positive = tighter.
 * @param sdM How unsure that is, metres: claws turned until a string sounded right are not counted.
 */
export function clawTurned(belief: Belief, advanceM: number, sdM = 0): Belief {
	const settings = (x: Float64Array, byM = advanceM): Float64Array => withClaw(belief, x, byM);
	const rise = settings(belief.mean)[belief.layout.balance]! - belief.mean[belief.layout.balance]!;
	const there = moved(belief, belief, {settings: x => settings(x)});
	const perAdvance = (settings(belief.mean, 1e-3)[belief.layout.balance]! - belief.mean[belief.layout.balance]!) / 1e-3;
	const sd = Math.hypot(Math.abs(perAdvance) * Math.hypot(noise.clawM, sdM), 0.03 * rise);
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

/**
 * Springs added or taken off. Pull and rate go with their number, each unsure
 * by a tenth, for springs differ and hook elsewhere (judgement).
 *
 * @param springs Fitted now, 1 or more.
 */
export function springsChanged(belief: Belief, springs: number): Belief {
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

/**
 * A support under the bridge. As the plate stands it holds it to 4 mrad, 0.12 mm at a tail of 30 mm, for a block
 * gives and is seldom a perfect fit (judgement); made for a height of the tail it holds it to `noise.supportM`.
 *
 * @param tailM Height that the tail was brought to first, metres above level; as it stood when absent.
 */
export function supported(belief: Belief, tailM?: number): Belief {
	const {value, gradient} =
		tailM === undefined ? linearisedAngle(belief, belief.mean) : linearisedLevel(belief, belief.mean);
	const {layout, model} = belief;
	const sdRad = tailM === undefined ? 0.004 : noise.supportM / model.tailArmM;
	const mean = Float64Array.from(belief.mean);
	mean[layout.support] = value - Math.asin((tailM ?? 0) / model.tailArmM);
	const covariance = replaced(belief.covariance, layout.support, gradient, sdRad ** 2);
	const held = {...belief, mean, covariance, blocked: true};
	if (tailM === undefined) return held;
	// Lying on its stop it came in at rest with springs that pulled harder than the strings: how hard shows when it is let go.
	covariance.set(layout.balance, layout.balance, covariance.get(layout.balance, layout.balance) + surplusSd ** 2);
	// Brought there by hand: wire slid at an open nut, how far is not known.
	return belief.strings.reduce<Belief>(
		(all, {on}, index) => (on === 'sounding' ? withAddedNoise(all, index, liftedCents) : all),
		held,
	);
}

/** See above, shares of the strings' moment at pitch. Judgement, as for a plate on its stop in `belief.ts`. */
const surplusSd = 0.06;

/** What lifting the plate by a few degrees may leave in a string as wire slides at the nut, cents. Judgement. */
const liftedCents = 15;

/** Locking or opening the nut keeps the wire in front of it, but for what the clamp presses out of line. */
export function nutChanged(belief: Belief, nut: 'open' | 'locked'): Belief {
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
