import type {Rng} from '../numeric/rng.ts';
import {given, slipped} from './deeds.ts';
import {springLike} from './draw-body.ts';
import {around} from './draws.ts';
import type {Guitar} from './guitar.ts';
import {tunerErrorCents} from './read.ts';
import {forcedTo, settled} from './rest.ts';
import {openCents} from './sound.ts';
import {pulled} from './work.ts';

/** A setting with limited travel: where the guitar stands, and whether an end was reached. */
export interface Moved {
	readonly guitar: Guitar;
	readonly ranOut: boolean;
}

/** Both claw screws turned, positive tightens; a hand meets each number of turns within a small error, and the screws end somewhere. */
export function turnClaw(
	rng: Rng,
	guitar: Guitar,
	{trebleTurns, bassTurns}: {readonly trebleTurns: number; readonly bassTurns: number},
): Moved {
	const {clawRangeTurns} = guitar.body;
	let ranOut = false;
	const screwed = (from: number, turns: number): number => {
		const to = from + (turns === 0 ? 0 : around(rng, turns, guitar.hands.clawSdTurns));
		const held = Math.min(clawRangeTurns[1], Math.max(clawRangeTurns[0], to));
		ranOut ||= held !== to;
		return held;
	};
	const claw = {
		trebleTurns: screwed(guitar.claw.trebleTurns, trebleTurns),
		bassTurns: screwed(guitar.claw.bassTurns, bassTurns),
	};
	return {guitar: settled({...guitar, claw}), ranOut};
}

/** Springs added (of the make that is in, each a little different) or taken out until there are `count`, 1 to 6. */
export function changeSprings(rng: Rng, guitar: Guitar, count: number): Guitar {
	const make = guitar.springs[0]!;
	const springs = Array.from(
		{length: count},
		(_, index) => guitar.springs[index] ?? springLike(rng, make, count, index),
	);
	return settled({...guitar, springs});
}

/** A support under the bridge: as it stands, or with the plate brought exactly level first. */
export function placeSupport(guitar: Guitar, where: 'as-it-stands' | 'level' = 'as-it-stands'): Guitar {
	return {...(where === 'level' ? forcedTo(guitar, 0) : guitar), supported: true};
}

/** Paper under a tail comes in tenths of a millimetre, so it is held that much worse than a ruler measures it. Judgement. */
const supportShare = 1.4;

/** Two looks at a ruler that agree within this are believed, metres: what it can be read to. */
const agreeM = 0.0001;
/** Nobody tries longer. */
const mostTries = 8;

/**
 * A support under the bridge with the tail brought to a height first, as well
 * as hands do it, metres above level: measured once while paper goes under,
 * measured again, and once more paper where the second look does not agree.
 */
export function supportAt(rng: Rng, guitar: Guitar, tailM: number): Guitar {
	const {plateSdM} = guitar.hands;
	for (let tries = 1; ; tries++) {
		const heightM = around(rng, tailM, supportShare * plateSdM);
		const seenM = around(rng, heightM, plateSdM);
		if (Math.abs(seenM - tailM) > agreeM && tries < mostTries) continue;
		return {...forcedTo(guitar, -Math.asin(heightM / guitar.spec.tailArmM)), supported: true};
	}
}

/**
 * Both claw screws turned alike until the tuner shows `toCents` for a string,
 * with the errors that a hand at a peg makes; as far as the screws go.
 */
export function turnClawUntil(rng: Rng, guitar: Guitar, string: number, toCents: number): Moved {
	const stopCents = toCents + around(rng, 0, guitar.hands.handErrorCents) - tunerErrorCents(rng, guitar);
	return clawAt(guitar, string, stopCents, turned => settled(turned));
}

/** Nobody who waits for a string to move lets go before the tuner shows that it does, cents. Judgement. */
const leastSeenCents = 0.5;

/**
 * The same with a support in that only holds the plate from one side, until
 * the string leaves the pitch that the support keeps it at: the plate has come
 * off it, and it is out.
 *
 * @param from Which way the plate leans on the support: it keeps the tail from `rising` or from `falling`.
 */
export function liftClear(
	rng: Rng,
	guitar: Guitar,
	string: number,
	toCents: number,
	from: 'rising' | 'falling',
): Moved {
	const [low, high] = guitar.body.stopsRad;
	// Tail up is a negative angle.
	const stopsRad = from === 'rising' ? ([guitar.angleRad, high] as const) : ([low, guitar.angleRad] as const);
	const leaning = (turned: Guitar): Guitar => ({
		...settled({...turned, supported: false, body: {...turned.body, stopsRad}}),
		body: guitar.body,
	});
	const heldCents = openCents(guitar, string) ?? 0;
	const meantCents = toCents + around(rng, 0, guitar.hands.handErrorCents) - tunerErrorCents(rng, guitar);
	const stopCents =
		from === 'rising'
			? Math.max(heldCents + leastSeenCents, meantCents)
			: Math.min(heldCents - leastSeenCents, meantCents);
	return clawAt(guitar, string, stopCents, leaning);
}

/** The claw where a string has a pitch, given how the guitar comes to rest. */
function clawAt(guitar: Guitar, string: number, stopCents: number, rest: (turned: Guitar) => Guitar): Moved {
	const turned = (turns: number): Guitar => {
		const {trebleTurns, bassTurns} = guitar.claw;
		return rest({...guitar, claw: {trebleTurns: trebleTurns + turns, bassTurns: bassTurns + turns}});
	};
	const [least, most] = guitar.body.clawRangeTurns;
	let low = least - Math.min(guitar.claw.trebleTurns, guitar.claw.bassTurns);
	let high = most - Math.max(guitar.claw.trebleTurns, guitar.claw.bassTurns);
	// Tighter claw, sharper strings.
	for (let round = 0; round < 40; round++) {
		const middle = (low + high) / 2;
		if ((openCents(turned(middle), string) ?? Number.NEGATIVE_INFINITY) < stopCents) low = middle;
		else high = middle;
	}

	const there = turned((low + high) / 2);
	return {guitar: there, ranOut: Math.abs((openCents(there, string) ?? Number.NEGATIVE_INFINITY) - stopCents) > 1};
}

/** The support out: the bridge goes where the balance puts it. */
export function removeSupport(guitar: Guitar): Guitar {
	return settled({...guitar, supported: false});
}

export const motions = ['dive', 'pull-up', 'bend'] as const;

/**
 * The arm pushed down until all hangs loose or pulled up to the stop, or one
 * string bent by about a whole tone, and let go. The bridge comes home as far
 * as friction lets it, and what does not hold slips.
 */
export function moveArm(guitar: Guitar, motion: (typeof motions)[number], string = 0): Guitar {
	if (motion === 'bend') return pulled(given(guitar, string, 'pull'), string, bendWayM);
	if (guitar.supported) return guitar;
	const {stopsRad, clawSlipTurns} = guitar.body;
	const extreme = motion === 'dive' ? 0.8 * stopsRad[0] : Math.min(stopsRad[1], guitar.angleRad + pullUpRad);
	const backed = {
		trebleTurns: guitar.claw.trebleTurns - clawSlipTurns,
		bassTurns: guitar.claw.bassTurns - clawSlipTurns,
	};
	const worked = {...given(guitar, 'all', 'arm'), claw: backed};
	return settled(slipped(forcedTo(worked, extreme), 'all'));
}

/** A whole tone on a plain third is about half a millimetre of way; a first takes over a millimetre. */
const bendWayM = 0.8e-3;
const pullUpRad = 0.06;
