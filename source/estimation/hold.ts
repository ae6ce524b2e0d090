import {holdingAngleRad, wireForFrequencyM, wireForTensionM} from '../physics/bridge-holding.ts';
import {
	type Bridge,
	centsPerLogTension,
	frequencyAt,
	momentAndSlope,
	restAngleRad,
	tensionAt,
	tensionForFrequency,
	travelAt,
} from '../physics/bridge.ts';
import {type Belief, bridgeOf, pullOfWire, springMomentNm, wireFor} from './belief.ts';
import {nominal} from './priors.ts';

/**
 * One possible truth and what its parts remember: the unknowns, how each
 * string lies in its play at the nut, and what the knife edge holds.
 */
export interface Pose {
	readonly x: Float64Array;
	/** Where the plate rests, radians from how it came in. */
	readonly angleRad: number;
	/** By string, 0 to 1; see `StringStatus.play`. */
	readonly play: readonly number[];
	/** See `Belief.lean`. */
	readonly lean: number;
}

/** A guess `x` at the unknowns, at rest. */
export function poseOf(belief: Belief, x: Float64Array): Pose {
	const known = poses.get(x);
	if (known?.belief === belief) return known.pose;
	const pose = {
		x,
		angleRad: restAngleRad(bridgeOf(belief, x)),
		play: belief.strings.map(({play}) => play),
		lean: belief.lean,
	};
	poses.set(x, {belief, pose});
	return pose;
}

/** A guess is asked about several times in one piece of advice. */
const poses = new WeakMap<Float64Array, {readonly belief: Belief; readonly pose: Pose}>();

/**
 * What comes of turning some strings until they sound given cents of their
 * targets, the others following the bridge. Coulomb's friction at the knife
 * edge: the plate stays while that can hold it, else comes to rest short of
 * balance by all of it. Wire slides at an open nut once its play is used up.
 *
 * @param cents One entry a string; `undefined` leaves it alone.
 * @param settings Unknowns that a hand has changed otherwise (claw, a string let off), in place of `pose.x`.
 */
export function held(
	belief: Belief,
	pose: Pose,
	cents: readonly (number | undefined)[],
	settings: Float64Array = pose.x,
): Pose {
	const {layout} = belief;
	const {bridge, holdHz, lean, angleRad} = settle(belief, pose, cents, settings);
	const x = Float64Array.from(settings);
	const play = [...pose.play];
	for (let index = 0; index < play.length; index++) {
		const at = layout.pull(index);
		if (holdHz[index]! > 0) {
			x[at] = pullOfWire(wireFor(belief, settings, index), wireForFrequencyM(bridge, index, holdHz[index]!, angleRad));
			// A peg comes up to its place: what is behind the nut pulls harder and slides in as soon as the plate goes down.
			play[index] = 0;
			continue;
		}

		const travelM = travelAt(bridge, index, angleRad);
		const [low, high] = [bridge.slidesBelowM[index]!, bridge.slidesAboveM[index]!];
		if (low === Number.NEGATIVE_INFINITY) continue;
		if (travelM >= low && travelM <= high) {
			play[index] = high > low ? (travelM - low) / (high - low) : 0.5;
			continue;
		}

		play[index] = travelM < low ? 0 : 1;
		const tensionN = tensionAt(bridge, index, travelM);
		if (tensionN > 0) {
			x[at] = pullOfWire(wireFor(belief, settings, index), wireForTensionM(bridge, index, tensionN, travelM));
		}
	}

	return {x, angleRad, play, lean};
}

/** Only what `held` would sound like: cents of every string, `undefined` when slack or off. */
export function heldCents(belief: Belief, pose: Pose, cents: readonly (number | undefined)[]): (number | undefined)[] {
	const {bridge, angleRad} = settle(belief, pose, cents, pose.x);
	return cents.map((each, index) => each ?? centsOn(belief, bridge, index, angleRad));
}

/** Cents of one string of a bridge at an angle; `undefined` when slack or off. */
export function centsOn(belief: Belief, bridge: Bridge, index: number, angleRad: number): number | undefined {
	const frequencyHz = frequencyAt(bridge, index, travelAt(bridge, index, angleRad));
	return frequencyHz === undefined ? undefined : 1200 * Math.log2(frequencyHz / belief.model.strings[index]!.targetHz);
}

/** Where the bridge comes to rest, by friction and play as they were. */
function settle(belief: Belief, pose: Pose, cents: readonly (number | undefined)[], settings: Float64Array) {
	const bridge = grippedAt(belief, settings, pose.play, pose.angleRad);
	const holdHz = cents.map((each, index) =>
		each === undefined ? 0 : belief.model.strings[index]!.targetHz * 2 ** (each / 1200),
	);
	const lean = leanAfter(belief, bridge, settings, holdHz, pose.angleRad);
	bridge.springMomentNm = springMomentNm(belief, settings, lean);
	return {bridge, holdHz, lean, angleRad: holdingAngleRad(bridge, holdHz, pose.angleRad)};
}

/** The bridge with each string's play at the nut counted from where the plate stands. */
export function grippedAt(belief: Belief, x: ArrayLike<number>, play: ArrayLike<number>, angleRad: number): Bridge {
	const bridge = bridgeOf(belief, x);
	if (belief.nut === 'locked' || belief.blocked) return bridge;
	for (let index = 0; index < play.length; index++) {
		if (belief.strings[index]!.on !== 'sounding') continue;
		const travelM = travelAt(bridge, index, angleRad);
		const widthM = playM(belief, bridge, index);
		bridge.slidesBelowM[index] = travelM - play[index]! * widthM;
		bridge.slidesAboveM[index] = travelM + (1 - play[index]!) * widthM;
		bridge.sharing[index] = sharingOf(belief, x, index);
	}

	return bridge;
}

/** Stiffness of a string while wire slides at the nut over that while it holds. */
export function sharingOf({model, layout}: Belief, x: ArrayLike<number>, index: number): number {
	const {speakingLengthM, behindNutM} = model.strings[index]!;
	return speakingLengthM / (speakingLengthM + behindNutM * Math.max(0, 1 + x[layout.behind(index)]!));
}

/** Travel of the bridge that takes a string through all its play at the nut, metres. */
function playM(belief: Belief, bridge: Bridge, index: number): number {
	const {wound} = belief.model.strings[index]!;
	const lengthM = bridge.speakingLengthM[index]!;
	const stretchM = Math.max(lengthM - bridge.wireM[index]!, 0.0005);
	return 2 * (wound ? nominal.nutHold.wound : nominal.nutHold.plain) * stretchM;
}

/** Share of its friction that the knife edge holds after a change, −1 to 1, found where the plate stood before it moved. */
function leanAfter(
	belief: Belief,
	bridge: Bridge,
	x: ArrayLike<number>,
	holdHz: ArrayLike<number>,
	angleRad: number,
): number {
	const most = springMomentNm(belief, x, 1) - springMomentNm(belief, x, 0);
	if (belief.blocked || most <= 0) return 0;
	bridge.springMomentNm = springMomentNm(belief, x, 0);
	const [moment] = momentAndSlope(bridge, angleRad, holdHz);
	let lean = Math.max(-1, Math.min(1, moment / most));
	if (belief.nut === 'locked') return lean;
	for (let index = 0; index < bridge.armM.length; index++) {
		if (!(holdHz[index]! > 0)) continue;
		const travelM = travelAt(bridge, index, angleRad);
		const targetN = tensionForFrequency(bridge, index, holdHz[index]!, travelM);
		if (targetN >= tensionAt(bridge, index, travelM)) continue;
		// A peg that has to come down goes below its place and up again.
		lean = Math.min(1, lean + ((approachCents / centsPerLogTension) * targetN * bridge.armM[index]!) / most);
	}

	return lean;
}

/** How far below its place a peg is let down before it comes up again, cents. Judgement: what hands do. */
const approachCents = 10;

/**
 * A guess at the unknowns after some strings were turned until they sound
 * given cents of their targets.
 *
 * @param cents One entry a string; `undefined` leaves it alone.
 */
export function holdCents(
	belief: Belief,
	x: Float64Array,
	cents: readonly (number | undefined)[],
): {readonly x: Float64Array; readonly angleRad: number} {
	return held(belief, poseOf(belief, x), cents);
}

/** For `holdCents`: one string at these cents, the others left alone. */
export function only(belief: Belief, index: number, cents: number): (number | undefined)[] {
	return belief.strings.map((_, at) => (at === index ? cents : undefined));
}
