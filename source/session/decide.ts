import type {StringNumber} from '../music/string-number.ts';
import {sheetProblems} from './check-sheet.ts';
import {evolve} from './evolve.ts';
import type {Deed} from './facts.ts';
import {deedLimits, type Limit, outside} from './limits.ts';
import type {SessionState} from './state.ts';
import {refusals as say} from './refusals.ts';

/** The deeds, ready to be recorded as one entry, or why the bench does not allow one of them. */
export type Decision =
	| {readonly ok: true; readonly deeds: readonly Deed[]}
	| (Refusal & {readonly ok: false /** The deed that was refused. */; readonly deed: Deed});

export interface Refusal {
	readonly refused: RefusalCode;
	/** What was said, what is allowed, what to do. */
	readonly said: string;
	/** The sheet's field, for a sheet. */
	readonly field?: string;
}

export type RefusalCode = keyof typeof say | 'out-of-range' | 'sheet';

/**
 * The rules of the bench. All deeds or none: each is judged as if those before
 * it had been done, so that "slackened, then moved" can be said at once.
 */
export function decide(deeds: readonly Deed[], state: SessionState): Decision {
	let now = state;
	for (const deed of deeds) {
		const refusal = refuse(deed, now);
		if (refusal) return {ok: false, ...refusal, deed};
		now = evolve(now, {...deed, at: 0, entry: 1});
	}
	return {ok: true, deeds};
}

function refuse(deed: Deed, state: SessionState): Refusal | undefined {
	const {nut, blocked} = state;
	switch (deed.type) {
		case 'SheetFilled': {
			const problem = sheetProblems(deed.sheet)[0];
			return problem && {refused: 'sheet', said: problem.said, field: problem.field};
		}
		case 'StagePassed':
		case 'StageReopened':
			return deed.stage === '' ? no('no-stage') : undefined;
		case 'ItemTicked':
			return deed.item === '' ? no('no-item') : undefined;
		case 'WayChosen':
			return deed.choice === '' ? no('no-item') : undefined;
		case 'NoteWritten':
			return deed.text.trim() === '' ? no('empty-note') : undefined;
		case 'NutOpened':
			return nut === 'open' ? no('nut-open-already') : undefined;
		case 'NutClamped':
			return nut === 'locked' ? no('nut-clamped-already') : undefined;
		case 'FineTunersCentred':
			return undefined;
		case 'SupportPlaced':
			return blocked ? no('support-in-already') : beyondIfGiven(deedLimits.tailMm, deed.tailMm);
		case 'SupportRemoved':
			return blocked ? undefined : no('no-support');
		case 'ClawTurned':
			return (
				beyond(deedLimits.clawTurns, deed.trebleTurns) ??
				beyond(deedLimits.clawTurns, deed.bassTurns) ??
				(deed.until && (noSuchString(deed.until.string, state) ?? beyond(deedLimits.aimCents, deed.until.cents))) ??
				(deed.until?.from && !blocked ? no('no-support') : undefined)
			);
		case 'SpringsChanged':
			return beyond(deedLimits.springs, deed.springs);
		case 'PlateMeasured':
			return beyond(deedLimits.tailMm, deed.tailMm);
		case 'StringRemoved':
			return noSuchString(deed.string, state) ?? ifOff(deed.string, state, 'off-already');
		case 'StringFitted':
			return noSuchString(deed.string, state) ?? ifFitted(deed.string, state);
		case 'StringSlackened':
			return (
				noSuchString(deed.string, state) ?? ifOff(deed.string, state, 'off-already') ?? ifLocked(deed.string, state)
			);
		case 'StringStretched':
			return noSuchString(deed.string, state) ?? ifOff(deed.string, state, 'string-off');
		case 'PegTurned':
			return (
				noSuchString(deed.string, state) ??
				ifOff(deed.string, state, 'string-off') ??
				ifLocked(deed.string, state) ??
				beyondIfGiven(deedLimits.aimCents, deed.untilCents)
			);
		case 'FineTunerTurned':
			return (
				noSuchString(deed.string, state) ??
				ifOff(deed.string, state, 'string-off') ??
				beyondIfGiven(deedLimits.aimCents, deed.untilCents)
			);
		case 'PitchRead':
			return (
				noSuchString(deed.string, state) ??
				ifOff(deed.string, state, 'string-off') ??
				beyond(deedLimits.cents, deed.cents) ??
				beyondIfGiven(deedLimits.fret, deed.fret) ??
				beyondIfGiven(deedLimits.heardSdCents, deed.heard?.sdCents)
			);
		case 'StringSlipped':
			return noSuchString(deed.string, state) ?? ifOff(deed.string, state, 'string-off');
		case 'SaddleMoved':
			return (
				noSuchString(deed.string, state) ?? ifTight(deed.string, state) ?? beyond(deedLimits.travelMm, deed.travelMm)
			);
		case 'SaddleMeasured':
			return noSuchString(deed.string, state) ?? beyond(deedLimits.positionMm, deed.positionMm);
		case 'DayPassed':
			return state.sheet === undefined ? no('no-sheet') : undefined;
		case 'ArmMoved':
			return undefined;
		default: {
			// A new kind of deed does not compile until its rules are written above.
			const unhandled: never = deed;
			throw new RangeError(`decide: expected a known type of deed, got ${JSON.stringify(unhandled)}`);
		}
	}
}

function no(refused: keyof typeof say, string?: StringNumber, count?: number): Refusal {
	return {refused, said: say[refused](string ?? 1, count ?? 0)};
}

function noSuchString(string: StringNumber, {sheet}: SessionState): Refusal | undefined {
	if (sheet === undefined) return no('no-sheet');
	const count = sheet.strings.length;
	return string > count ? no('no-such-string', string, count) : undefined;
}

function ifOff(string: StringNumber, state: SessionState, refused: 'string-off' | 'off-already'): Refusal | undefined {
	return state.strings[string].fitted === 'off' ? no(refused, string) : undefined;
}

function ifFitted(string: StringNumber, state: SessionState): Refusal | undefined {
	return state.strings[string].fitted === 'off' ? undefined : no('on-already', string);
}

function ifTight(string: StringNumber, state: SessionState): Refusal | undefined {
	return state.strings[string].fitted === 'on' ? no('not-slack', string) : undefined;
}

/** Behind a clamped nut the tuning machine pulls at the clamp, not at the string. */
function ifLocked(string: StringNumber, {nut}: SessionState): Refusal | undefined {
	return nut === 'locked' ? no('nut-clamped', string) : undefined;
}

function beyond(limit: Limit, value: number): Refusal | undefined {
	const said = outside(limit, value);
	return said === undefined ? undefined : {refused: 'out-of-range', said};
}

function beyondIfGiven(limit: Limit, value: number | undefined): Refusal | undefined {
	return value === undefined ? undefined : beyond(limit, value);
}
