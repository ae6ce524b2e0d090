import {type StringNumber, stringsOf} from '../music/string-number.ts';
import type {Fact, How} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';

/**
 * What the facts alone say about a set-up, before any physics and any belief:
 * who is on, what is clamped, which readings still stand. Derived by `stateOf`.
 * Turns positive = tightened; saddle positive = back; plate positive = tail high.
 */
export interface SessionState {
	/** Undefined until intake is filled. */
	readonly sheet?: InstrumentSheet;
	/** Facts so far, the length of the story. */
	readonly facts: number;
	readonly nut: 'open' | 'locked';
	/** True while a support is under the bridge. */
	readonly blocked: boolean;
	/** Springs fitted; undefined until intake. */
	readonly springs?: number | undefined;
	/** Turns made since the start; `meanTurns` is what moves the plate, the difference twists it. */
	readonly claw: {readonly meanTurns: number; readonly trebleTurns: number; readonly bassTurns: number};
	/** All eight numbers are always there; how many count is the sheet's business. */
	readonly strings: {readonly [S in StringNumber]: StringSession};
	readonly plate?: PlateSession;
	readonly ticked: Readonly<Record<string, boolean>>;
	readonly ways: Readonly<Record<string, string>>;
	/** In the order first passed. */
	readonly passedStages: readonly string[];
	/** Reopened and not passed again. */
	readonly reopenedStage?: string;
	/** Pegs, fine tuners, claw and saddles turned or moved so far. */
	readonly adjustments: number;
	/** Index in the story of the last fact that moved any pitch, or -1. */
	readonly lastTouch: number;
	readonly notes: readonly string[];
	readonly armMotions: readonly ArmMotion[];
}

export type ArmMotion = Extract<Fact, {type: 'ArmMoved'}>['motion'];

export interface StringSession {
	readonly fitted: 'on' | 'slack' | 'off';
	readonly readings: {readonly [H in How]?: ReadingSession};
	/** Whichever way of sounding was read last. */
	readonly lastHow?: How;
	/** Facts that moved this string's pitch so far; the difference from a reading's own count is the reading's age. */
	readonly touches: number;
	/** Saddle, mm behind the scale line; undefined until the sheet or a measurement says. */
	readonly saddleMm?: number;
	/** Sum of all moves entered, mm. */
	readonly saddleMovedMm: number;
	readonly hole?: 'front' | 'back';
	/** Gentle pulls since the string was fitted. */
	readonly stretched: number;
	/** Turns of its own peg or fine tuner, and moves of its saddle. */
	readonly adjustments: number;
	readonly slips: number;
}

export interface ReadingSession {
	/** All plucks since anything that moves this string was touched, oldest first, cents: what may be averaged. Never empty. */
	readonly cents: readonly number[];
	readonly last: Fact & {readonly type: 'PitchRead'};
	/** The string's `touches` when it was read. */
	readonly touches: number;
}

export interface PlateSession {
	readonly tailMm: number;
	/** Facts since then that moved the plate. */
	readonly touchedSince: number;
}

const untouched: StringSession = {
	fitted: 'on',
	readings: {},
	touches: 0,
	saddleMovedMm: 0,
	stretched: 0,
	adjustments: 0,
	slips: 0,
};

/** Before the first fact: a guitar as it comes in, strings on and nut clamped. */
export const initialState: SessionState = {
	facts: 0,
	nut: 'locked',
	blocked: false,
	claw: {meanTurns: 0, trebleTurns: 0, bassTurns: 0},
	strings: {
		1: untouched,
		2: untouched,
		3: untouched,
		4: untouched,
		5: untouched,
		6: untouched,
		7: untouched,
		8: untouched,
	},
	ticked: {},
	ways: {},
	passedStages: [],
	adjustments: 0,
	lastTouch: -1,
	notes: [],
	armMotions: [],
};

/** How many facts have moved this string since it was last read that way; undefined if it was not. */
export function touchedSince(session: StringSession, how: How): number | undefined {
	const reading = session.readings[how];
	return reading === undefined ? undefined : session.touches - reading.touches;
}

/** The strings that the sheet has, thinnest first; none before intake. */
export function stringsInUse(state: SessionState): readonly StringNumber[] {
	return stringsOf(state.sheet?.strings.length ?? 0);
}
