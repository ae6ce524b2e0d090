import type {Rng} from '../numeric/rng.ts';
import {around, between} from './draws.ts';
import type {Body, GuitarSpec, Seat, Spring} from './guitar.ts';

const degree = Math.PI / 180;

/** Bridge, block and posts within plausible ranges; no published dimensions exist, so all of these are judgement. Claw and friction are set later. */
export function drawBody(rng: Rng, scales: Pick<Body, 'frictionScale' | 'stretchScale'>): Body {
	const hookYM = -between(rng, 0.035, 0.045);
	const hookXM = between(rng, -0.003, 0.006);
	return {
		scaleLineM: between(rng, 0.002, 0.01),
		hookXM,
		hookYM,
		clawXM: hookXM - 0.1,
		clawYM: hookYM + between(rng, -0.004, 0.006),
		clawRangeTurns: [-between(rng, 6, 12), between(rng, 6, 12)],
		stopsRad: [-between(rng, 16, 22) * degree, between(rng, 7, 10) * degree],
		pivotFrictionNm: 0,
		twistRadPerMPerTurn: between(rng, 0.01, 0.03),
		endStiffness: between(rng, 0.9, 1.3),
		fingerBehindM: between(rng, 0.006, 0.012),
		fingerDepthM: between(rng, 0.05e-3, 0.15e-3),
		clawSlipTurns: 0,
		...scales,
	};
}

/** Extension springs of one make, each a little different; closed lengths are relative to the block, the claw is placed to suit. */
export function drawSprings(rng: Rng, count: number): readonly Spring[] {
	const rateNPerM = between(rng, 1500, 3500);
	const initialN = between(rng, 3, 12);
	return Array.from({length: count}, (_, index) => springLike(rng, {rateNPerM, initialN}, count, index));
}

export function springLike(
	rng: Rng,
	{rateNPerM, initialN}: {rateNPerM: number; initialN: number},
	count: number,
	index: number,
): Spring {
	return {
		rateNPerM: rateNPerM * around(rng, 1, 0.02),
		initialN: initialN * around(rng, 1, 0.05),
		closedM: 0.08 * around(rng, 1, 0.003),
		acrossM: (index - (count - 1) / 2) * -0.0105,
	};
}

/** Places of the strings: fingerboard radius, headstock (inline or split), slots and saddles cut by hand. */
export function drawSeats(rng: Rng, spec: GuitarSpec, body: Body): readonly Seat[] {
	const count = spec.strings.length;
	const contactHeightM = between(rng, 0.009, 0.016);
	const radiusM = between(rng, 0.3, 0.43);
	const nutDropM = between(rng, -0.001, 0.004);
	const inline = rng.uniform() < 0.6;
	return spec.strings.map((_, index) => {
		const acrossM = ((count - 1) / 2 - index) * 0.0106;
		const heightM = contactHeightM - acrossM ** 2 / (2 * radiusM) + around(rng, 0, 0.1e-3);
		const fromOutside = inline ? count - 1 - index : Math.min(index, count - 1 - index);
		return {
			acrossM,
			heightM,
			nutXM: body.scaleLineM - spec.scaleLengthM,
			nutYM: heightM - nutDropM,
			nutWrapRad: between(rng, 6, 12) * degree,
			behindPathM: 0.045 + (inline ? 0.025 : 0.035) * fromOutside + around(rng, 0, 0.003),
			fineTunerTravelM: between(rng, 0.5e-3, 0.8e-3),
			saddleRangeM: [-between(rng, 2, 4) * 1e-3, between(rng, 7, 10) * 1e-3],
			actionM: spec.actionM + around(rng, 0, 0.08e-3),
			nutHeightM: spec.nutHeightM + around(rng, 0, 0.04e-3),
			clampShiftCents: Math.min(8, Math.max(-8, around(rng, 1.5, 3))),
		};
	});
}
