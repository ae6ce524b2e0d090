import type {Rng} from '../numeric/rng.ts';
import {crept, given, slipped} from './deeds.ts';
import {drawGive, drawWire} from './draw-wire.ts';
import {around} from './draws.ts';
import {type Guitar, stringAt, withString} from './guitar.ts';
import {displayed, tunerErrorCents} from './read.ts';
import {settled} from './rest.ts';
import {rigOf} from './rig.ts';
import {loosened} from './slack.ts';
import {openCents} from './sound.ts';
import {type Tuner, turnedExactly, withoutString} from './turn.ts';

/** Coming down, a peg is let back this far below and brought up again, as everyone is taught: slack in the gears is taken up. */
const approachCents = 12;
const leastApproachCents = 0.5;

/** What a turn came to and what the tuner showed then. */
export interface TurnRead {
	readonly guitar: Guitar;
	/** Undefined when the string is off, slack or has broken. */
	readonly shown: number | undefined;
	/** The fine tuner reached an end of its travel first, or the peg could do nothing because the nut is locked. */
	readonly ranOut: boolean;
	/** The string broke and is off. */
	readonly broke: boolean;
}

/**
 * A peg or fine tuner turned until the tuner shows `toCents`. The hand stops
 * at a normal error of its own, and the tuner's noise is between what is
 * shown and what is true: true = shown − noise.
 */
export function turnTo(rng: Rng, guitar: Guitar, string: number, toCents: number, by: Tuner): TurnRead {
	const stopCents = toCents + around(rng, 0, guitar.hands.handErrorCents);
	const errorCents = tunerErrorCents(rng, guitar);
	if (!stringAt(guitar, string).on) return {guitar, shown: undefined, ranOut: true, broke: false};
	if (by === 'peg' && guitar.nut === 'locked') {
		const cents = openCents(guitar, string);
		return {guitar, shown: cents === undefined ? undefined : displayed(cents + errorCents), ranOut: true, broke: false};
	}

	const turned = turnedByHand(settled(given(guitar, string, 'turn')), string, stopCents - errorCents, by);
	if (turned.broke) return {...turned, shown: undefined};
	// A loose saddle creeps as the tension comes, and what the tuner showed before is no longer true.
	const after = crept(turned.guitar, string);
	const cents = openCents(turned.guitar, string);
	return {...turned, guitar: after, shown: cents === undefined ? undefined : displayed(cents + errorCents)};
}

/** A turn that ends exactly at a pitch, coming from below when a peg has to come down. */
export function turnedByHand(
	guitar: Guitar,
	string: number,
	toCents: number,
	by: Tuner,
): ReturnType<typeof turnedExactly> {
	const now = by === 'peg' ? openCents(guitar, string) : undefined;
	if (now === undefined || toCents > now - leastApproachCents) return turnedExactly(guitar, string, toCents, by);
	return turnedExactly(turnedExactly(guitar, string, toCents - approachCents, by).guitar, string, toCents, by);
}

/** Wire let off the peg until the string hangs loose. A locked nut holds it: then nothing changes. */
export function slacken(guitar: Guitar, string: number): Guitar {
	if (guitar.nut === 'locked' || !stringAt(guitar, string).on) return guitar;
	const {give} = stringAt(guitar, string);
	// Windings loosen and have to seat again.
	const reseating = {...give, soonM: give.soonM + 0.01e-3};
	return settled(withString(loosened(guitar, string, 12e-3), string, {give: reseating}));
}

/** The string taken off; at a locked nut it is cut loose at the saddle. */
export function removeString(guitar: Guitar, string: number): Guitar {
	return withoutString(guitar, string);
}

/** A new string of the specified kind put on, wound up just short of tight. */
export function fitString(rng: Rng, guitar: Guitar, string: number): Guitar {
	const {frictionScale, stretchScale} = guitar.body;
	const wire = drawWire(rng, guitar.spec.strings[string]!, frictionScale);
	const give = drawGive(rng, true, stretchScale);
	const fitted = withString(guitar, string, {wire, give, on: true, clampedM: 0, slipM: 0});
	return settled(loosened(fitted, string, 6e-3));
}

/** A day with nobody near it: what is new goes on giving, nothing else moves. */
export function leftForADay(guitar: Guitar): Guitar {
	return settled(given(guitar, 'all', 'day'));
}

/** The string pulled by hand along its length and let go: what makes a new string settle fastest. */
export function stretchString(guitar: Guitar, string: number): Guitar {
	return pulled(settled(given(guitar, string, 'pull')), string, 1.5e-3);
}

/** The string led this much longer way and let go again; wire slides at the nut as friction lets it, and a string that does not hold slips. */
export function pulled(guitar: Guitar, string: number, wayM: number): Guitar {
	const line = rigOf(guitar).lines[string]!;
	const detour = {string, endXM: line.endXM, endYM: line.endYM, extraM: wayM};
	return settled(slipped(settled(guitar, detour), string));
}
