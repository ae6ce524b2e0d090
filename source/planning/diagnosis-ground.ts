import {Matrix} from 'ml-matrix';
import {angleFor, type Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {noise} from '../estimation/priors.ts';
import {linearisedCents} from '../estimation/reading-model.ts';
import type {DiagnosisCase, DiagnosisString} from './diagnosis-case.ts';
import {centsAt, centsOf} from './landing.ts';

/** All of a case but what happened. */
export type DiagnosisGround = Omit<DiagnosisCase, 'events'>;

/** Plate tilt over which responses are taken, radians: some ten cents. */
const tiltRad = 5e-4;

/** A good edge leaves a plate within a cent or so of home; a belief that has heard less of it is no proof. Judgement. */
const usualFrictionCents = {mean: 0.9, sd: 0.4} as const;

/** What the belief of one moment says about causes to come: how strings answer the bridge and each other, and where they stand. */
export function diagnosisGround(belief: Belief): DiagnosisGround {
	const tilted = (x: Float64Array): readonly number[] => perRadian(belief, x);
	const most = Math.max(...tilted(belief.mean));
	// Shares of the middle one: the common scale, which is the least known, must not count as doubt.
	const {estimates} = propagated(belief, x => {
		const answers = tilted(x);
		const middle = answers.reduce((sum, each) => sum + each, 0) / answers.length;
		return answers.map(each => each / middle);
	});
	const strings = belief.strings.map(
		({newness}, index): DiagnosisString => ({
			responseCents: estimates[index] ?? {mean: 1, sd: 1},
			throughBridge: throughBridge(belief, index),
			newness,
		}),
	);
	const {friction} = belief.layout;
	const leant = angleFor({...belief, lean: 1}, belief.mean) - angleFor({...belief, lean: 0}, belief.mean);
	const frictionCents = Math.max(usualFrictionCents.mean, Math.abs(leant) * most);
	const share = Math.sqrt(belief.covariance.get(friction, friction)) / Math.max(1e-9, belief.mean[friction]!);
	return {
		strings,
		readingCents: noise.readingCents,
		tailSdMm: noise.tailM * 1000,
		tailMmPerCent: (-1000 * belief.model.tailArmM) / most,
		frictionCents: {mean: frictionCents, sd: Math.max(usualFrictionCents.sd, frictionCents * Math.min(1, share))},
		before: standing(belief),
	};
}

/** Cents per radian that every string answers when the plate is tilted back, its wire being held. A slack one answers nothing. */
function perRadian(belief: Belief, x: Float64Array): readonly number[] {
	const angleRad = angleFor(belief, x);
	const up = centsAt(belief, x, angleRad + tiltRad);
	const down = centsAt(belief, x, angleRad - tiltRad);
	return up.map((cents, index) => {
		const other = down[index];
		return cents === undefined || other === undefined ? 1e-3 : (cents - other) / (2 * tiltRad);
	});
}

/** Cents on every string for one cent that this one goes up by itself. */
function throughBridge(belief: Belief, index: number): readonly number[] {
	const at = belief.layout.pull(index);
	const stepped = (by: number): readonly (number | undefined)[] => {
		const x = Float64Array.from(belief.mean);
		x[at]! += by;
		return centsOf(belief, x);
	};
	const up = stepped(0.002);
	const down = stepped(-0.002);
	const change = up.map((cents, other) => (cents === undefined || down[other] === undefined ? 0 : cents - down[other]));
	const own = change[index] || 1;
	return change.map((cents, other) => (other === index ? 1 : cents / own));
}

function standing(belief: Belief): NonNullable<DiagnosisGround['before']> {
	const places = belief.strings.map(({everRead, turnedUnread, on}, index) =>
		everRead && !turnedUnread && on === 'sounding' ? linearisedCents(belief, belief.mean, index) : undefined,
	);
	const spread = places.map(place => place && belief.covariance.mmul(Matrix.columnVector(place.gradient)).to1DArray());
	return {
		cents: places.map(place => place?.value),
		covariance: places.map(one =>
			spread.map(other => (one && other ? one.gradient.reduce((sum, slope, at) => sum + slope * other[at]!, 0) : 0)),
		),
	};
}
