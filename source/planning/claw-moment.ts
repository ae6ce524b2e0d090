import type {Belief} from '../estimation/belief.ts';
import {probabilityWithin} from '../numeric/normal.ts';
import {inEighths} from './claw-limits.ts';
import {advanceFor, type ClawSense, clawTurned} from './claw-sense.ts';
import {centsOf} from './landing.ts';

/** What is wanted of the plate, and the screw that brings it. */
export interface PlateGoal {
	/** Tail height wanted at pitch, metres. */
	readonly wishM: number;
	readonly toleranceM: number;
	/** Advance of a claw screw per turn, metres. */
	readonly screwPitchM: number;
}

/**
 * Chances, 0 to 1, that the plate ends as wished at pitch. The claw is turned
 * before the strings: what has tilted the plate has mostly detuned them too,
 * so its turn brings them nearer home, and strings tuned first are tuned
 * twice (measured, `npm run bench:balance -- --bounds`: no surer, more turns).
 */
export interface ClawChances {
	/** The claw left as it is. */
	readonly asItIs: number;
	/** The planned turn made now, in eighths. */
	readonly turnedNow: number;
	/** The same if where the plate will stand were known as well as two measures with all strings near pitch tell it. */
	readonly turnedSurely: number;
}

/** What is left unknown of the tail's height at pitch with all strings near it and two measures, metres. Judgement: ruler and friction. */
const nearSdM = 0.0001;

export function clawChances(sense: ClawSense, goal: PlateGoal): ClawChances {
	const seen = {...sense, tailVariance: Math.min(sense.tailVariance, nearSdM ** 2)};
	return {asItIs: chanceOf(sense, goal), turnedNow: afterTurn(sense, goal), turnedSurely: afterTurn(seen, goal)};
}

function afterTurn(sense: ClawSense, goal: PlateGoal): number {
	const turns = inEighths(advanceFor(sense, goal.wishM).mean / goal.screwPitchM);
	return chanceOf(clawTurned(sense, turns * goal.screwPitchM), goal);
}

function chanceOf({tailM, tailVariance}: ClawSense, {wishM, toleranceM}: PlateGoal): number {
	return probabilityWithin({mean: tailM - wishM, sd: Math.sqrt(tailVariance)}, toleranceM);
}

/** Sure enough to leave the plate alone. */
export const sureShare = 0.9;
/** A turn of the claw detunes everything: less than this in chances is not worth one. Judgement. */
const worthwhile = 0.1;

/** True where a turn of the claw now makes the plate surer to end as wished. */
export function isTurnWorth({asItIs, turnedNow}: ClawChances): boolean {
	return asItIs < sureShare && turnedNow > asItIs + worthwhile;
}

/** A ruler is laid on again more quickly than anything is turned again: worth it from this much in chances. Judgement. */
const worthLooking = 0.02;

/** True where a second measure makes the turn surer to be right. */
export function isLookWorth(chances: ClawChances): boolean {
	return isTurnWorth(chances) && chances.turnedSurely > chances.turnedNow + worthLooking;
}

/** All strings this near to pitch say well enough where the plate will stand, cents. Judgement. */
const roughCents = 15;

/** Every string is roughly at pitch: what it still brings to the plate's height can be reckoned. */
export function isRough(belief: Belief): boolean {
	if (belief.blocked) return false;
	const cents = centsOf(belief, belief.mean);
	return belief.strings.every(
		({on, everRead, turnedUnread}, index) =>
			on === 'off' || (on === 'sounding' && everRead && !turnedUnread && Math.abs(cents[index] ?? 1200) <= roughCents),
	);
}
