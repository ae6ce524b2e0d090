import type {Rng} from '../numeric/rng.ts';
import {around} from './draws.ts';
import {crept, given} from './deeds.ts';
import {evenPress, type Press} from './fretting.ts';
import type {Guitar} from './guitar.ts';
import {settled} from './rest.ts';
import {rigOf, springsOpenM} from './rig.ts';
import {pressedAndReleased, type Sounding, soundCents} from './sound.ts';

/** Smallest step of the tuner's display. */
const displayStepCents = 0.1;

/**
 * A string plucked and read from the tuner, which has noise of its own and
 * rounds. Cents against the target sounded that way (harmonic and fretted
 * 12th: target + 1 octave; other frets: target + fret × 100). Undefined when
 * the string is off or slack. Plucking stretches a new string in a little.
 */
export function pluck(
	rng: Rng,
	guitar: Guitar,
	string: number,
	sounding: Sounding = {how: 'open'},
): {readonly guitar: Guitar; readonly cents: number | undefined} {
	const press = sounding.how === 'fretted' ? drawPress(rng, guitar) : evenPress;
	const truth = soundCents(guitar, string, sounding, press);
	const cents = truth === undefined ? undefined : displayed(truth + tunerErrorCents(rng, guitar));
	const released =
		sounding.how === 'fretted' && truth !== undefined
			? pressedAndReleased(guitar, string, sounding.fret ?? 12, press)
			: guitar;
	return {guitar: crept(settled(given(released, string, 'pluck')), string), cents};
}

/** Height of the tail edge above level as a person measures it, m, positive = tail high. */
export function measureTail(rng: Rng, guitar: Guitar): number {
	return tailM(guitar) + around(rng, 0, guitar.hands.plateSdM);
}

/** A ruler in the back of the body, between knife edges and hooks, m. */
const rulerInBodySdM = 1e-3;

/** Knife edges down to where the springs hook into the block, as a person measures it, m. */
export function measureSpringArm(rng: Rng, {body}: Guitar): number {
	return around(rng, -body.hookYM, rulerInBodySdM);
}

/** A ruler along a spring in its cavity, first turn to last, read at both ends to half a millimetre, m. */
const rulerOnCoilSdM = 0.5e-3;
/** The same along a loose spring, where it can be laid well, and springs of one make that are not quite alike, m. */
const looseSpringSdM = Math.hypot(0.3e-3, 0.25e-3);
/** What of a spring's length is hooks, m. */
const hooksM = 32e-3;

/** Coil body of the middle spring as it stands, and of a loose one of the same make, closed up, as a person measures them, m. */
export function measureSprings(rng: Rng, guitar: Guitar): {readonly nowM: number; readonly closedM: number} {
	const middle = Math.floor(guitar.springs.length / 2);
	const closedM = guitar.springs[middle]!.closedM - hooksM;
	const openM = springsOpenM(rigOf(guitar), guitar.angleRad)[middle]!;
	return {
		nowM: around(rng, closedM + openM, rulerOnCoilSdM),
		closedM: around(rng, closedM, looseSpringSdM),
	};
}

/** True height of the tail edge above level, m. */
export function tailM({spec, angleRad}: Guitar): number {
	return 0 - spec.tailArmM * Math.sin(angleRad);
}

/** What one reading shows beyond the truth, before rounding. */
export function tunerErrorCents(rng: Rng, {hands}: Guitar): number {
	return around(rng, 0, hands.tunerNoiseCents) - hands.tunerReferenceCents;
}

export function displayed(cents: number): number {
	// Adding 0 keeps a negative zero off the display.
	return Math.round(cents / displayStepCents) / Math.round(1 / displayStepCents) + 0;
}

function drawPress(rng: Rng, {hands}: Guitar): Press {
	return {
		depthRatio: Math.exp(around(rng, 0, 0.2) * hands.fingerUnevenness),
		sidewaysM: around(rng, 0, 0.4e-3) * hands.fingerUnevenness,
	};
}
