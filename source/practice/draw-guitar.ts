import type {Rng} from '../numeric/rng.ts';
import {drawBody, drawSeats, drawSprings} from './draw-body.ts';
import {drawGive, drawWire} from './draw-wire.ts';
import {between} from './draws.ts';
import {type Fault, withFaults} from './faults.ts';
import type {Guitar, GuitarSpec} from './guitar.ts';
import {clawBalanced, idealSaddleM, pitchesHeld, springsSuited, torquePerCentNm} from './poise.ts';
import {type Start, started} from './starts.ts';

/** How the guitar comes in and how good hands and tools are. All optional but `start`. */
export interface GuitarOptions {
	readonly start: Start;
	/** Open when absent. A guitar that comes in locked shifts when it is unlocked. */
	readonly nut?: 'open' | 'locked';
	/** Standard deviation of one reading; 0.5. The display rounds to 0.1 as well. */
	readonly tunerNoiseCents?: number;
	/** Standard deviation of where a hand stops turning; 0.7. */
	readonly handErrorCents?: number;
	/** Multiplies friction at pivot and nut; 1. */
	readonly frictionScale?: number;
	/** Multiplies what new strings have to give; 1. */
	readonly stretchScale?: number;
	/** Saddles stand up to this far from where the 12th fret agrees; 3 mm for `intonation-off`, else 0.5 mm. */
	readonly saddleOffM?: number;
	/** Standard deviation of a saddle set by hand, cut at 2.5; 0.08 mm. */
	readonly saddleSdM?: number;
	/** Tail off the wish at pitch, as the claw stands, positive = high; 0, drawn for `drift` and `new-gauge`. */
	readonly plateOffM?: number;
	/** Standard deviation of the tail's measured height; 0.1 mm. */
	readonly plateSdM?: number;
	/** Standard deviation of one turn of a claw screw; 0.02. */
	readonly clawSdTurns?: number;
	readonly faults?: readonly Fault[];
}

/** How far the plate comes to rest from home, in cents of the string that reacts most: a good bridge. */
const goodFrictionCents = [0.3, 1.5] as const;

/** A guitar of this specification with everything hidden drawn: same stream, same guitar. */
export function drawGuitar(rng: Rng, spec: GuitarSpec, options: GuitarOptions): Guitar {
	const {frictionScale = 1, stretchScale = 1, start} = options;
	const springs = drawSprings(rng, spec.springs);
	const body = drawBody(rng, spec, springs, {frictionScale, stretchScale});
	const seats = drawSeats(rng, spec, body);
	const isNew = start === 'slack' || start === 'new-gauge';
	const saddleOffM = options.saddleOffM ?? (start === 'intonation-off' ? 3e-3 : 0.5e-3);
	const bare: Guitar = {
		spec,
		body,
		strings: spec.strings.map((string, index) => ({
			wire: drawWire(rng, string, frictionScale),
			seat: seats[index]!,
			on: true,
			frontM: spec.scaleLengthM,
			behindM: seats[index]!.behindPathM,
			clampedM: 0,
			fineTunerM: seats[index]!.fineTunerTravelM / 2,
			saddleM: 0.003,
			give: drawGive(rng, isNew, stretchScale),
			creepM: 0,
			slipM: 0,
		})),
		springs,
		claw: {trebleTurns: 0, bassTurns: 0},
		nut: 'open',
		supported: false,
		angleRad: 0 - Math.asin((spec.wishTailM ?? 0) / spec.tailArmM),
		hands: {
			tunerNoiseCents: options.tunerNoiseCents ?? 0.5,
			tunerReferenceCents: 0,
			handErrorCents: options.handErrorCents ?? 0.7,
			saddleSdM: options.saddleSdM ?? 0.08e-3,
			plateSdM: options.plateSdM ?? 0.1e-3,
			clawSdTurns: options.clawSdTurns ?? 0.02,
			fingerUnevenness: (options.handErrorCents ?? 0.7) / 0.7,
		},
	};
	const strings = bare.strings.map((string, index) => ({
		...string,
		saddleM: withinRange(idealSaddleM(bare, index) + between(rng, -saddleOffM, saddleOffM), string.seat.saddleRangeM),
	}));
	const nutShares = spec.strings.map(() => between(rng, -1, 1));
	const home = springsSuited(clawBalanced(pitchesHeld({...bare, strings}, [], nutShares)));
	const frictionCents = between(rng, ...goodFrictionCents) * frictionScale;
	const guitar = {...home, body: {...home.body, pivotFrictionNm: frictionCents * torquePerCentNm(home)}};
	const arrived = started(rng, guitar, {start, nutShares, plateOffM: options.plateOffM, nut: options.nut ?? 'open'});
	return withFaults(arrived, options.faults ?? []);
}

function withinRange(valueM: number, [lowM, highM]: readonly [number, number]): number {
	return Math.min(highM, Math.max(lowM, valueM));
}
