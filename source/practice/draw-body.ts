import type {Rng} from '../numeric/rng.ts';
import {around, between} from './draws.ts';
import type {Body, GuitarSpec, Seat, Spring, StringSpec} from './guitar.ts';

const degree = Math.PI / 180;
const mostSoftening = 0.3;

/**
 * Bridge, block and posts within plausible ranges; no published dimensions
 * exist, so all of these are judgement. Claw and friction are set later.
 *
 * As the plate turns back, contacts behind the pivot sink and the strings lose
 * arm; hooks behind it do the same to the springs. At pitch that softens the
 * springs' hold by (ΣT xs + ΣF hook) / Σ k hk². Where the draw would take away
 * more than `mostSoftening`, the pivot is put nearer under the saddles: beyond,
 * nobody could balance the bridge by hand, and no one would have built it.
 */
export function drawBody(
	rng: Rng,
	spec: GuitarSpec,
	springs: readonly Spring[],
	scales: Pick<Body, 'frictionScale' | 'stretchScale'>,
): Body {
	const hookYM = -between(rng, 0.035, 0.045);
	const hookXM = between(rng, -0.003, 0.003);
	const springNmPerRad = springs.reduce((sum, {rateNPerM}) => sum + rateNPerM, 0) * hookYM ** 2;
	const pullN = spec.strings.reduce((sum, string) => sum + roughTensionN(string, spec.scaleLengthM), 0);
	// Springs pull with about a third of the strings' force; saddles stand some 3 mm behind the scale line.
	const furthestM = (mostSoftening * springNmPerRad) / pullN - hookXM / 3 - 0.003;
	return {
		scaleLineM: Math.min(between(rng, 0.001, 0.008), furthestM),
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

/** Mersenne's law for a string as heavy as steel of its outer size, wound ones lighter by the gaps of the wrap. */
function roughTensionN({gaugeM, targetHz, wound}: StringSpec, scaleLengthM: number): number {
	const massKgPerM = 7850 * (Math.PI / 4) * gaugeM ** 2 * (wound ? 0.85 : 1);
	return massKgPerM * (2 * scaleLengthM * targetHz) ** 2;
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
		acrossM: ((count - 1) / 2 - index) * 0.0105,
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
