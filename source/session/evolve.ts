import type {StringNumber} from '../music/string-number.ts';
import {stringNumbers} from '../music/string-number.ts';
import {fillSheet} from './evolve-sheet.ts';
import type {Fact, Story} from './facts.ts';
import {type ReadingSession, initialState, type SessionState, type StringSession} from './state.ts';

/** Replays a story from the beginning. */
export function stateOf(story: Story): SessionState {
	return story.reduce(evolve, initialState);
}

/**
 * The next state. Total and without rules: whatever was stored is taken as
 * having happened; what may be stored is `decide`'s business.
 */
export function evolve(before: SessionState, fact: Fact): SessionState {
	return {...apply(before, fact), facts: before.facts + 1};
}

function apply(state: SessionState, fact: Fact): SessionState {
	switch (fact.type) {
		case 'SheetFilled':
			return fillSheet(state, fact.sheet);
		case 'StagePassed': {
			const {reopenedStage, ...rest} = state;
			const passedStages = [...new Set([...state.passedStages, fact.stage])];
			// Passing another stage while one is reopened leaves that one open.
			return reopenedStage === fact.stage ? {...rest, passedStages} : {...state, passedStages};
		}
		case 'StageReopened':
			return {...state, reopenedStage: fact.stage};
		case 'ItemTicked':
			return {...state, ticked: {...state.ticked, [fact.item]: fact.done}};
		case 'WayChosen':
			return {...state, ways: {...state.ways, [fact.choice]: fact.value}};
		case 'NoteWritten':
			return {...state, notes: [...state.notes, fact.text]};
		case 'NutOpened':
			return touchAll({...state, nut: 'open'});
		case 'NutClamped':
			return touchAll({...state, nut: 'locked'});
		case 'FineTunersCentred':
			return touchAll(state);
		case 'SupportPlaced':
			return touchAll({...state, blocked: true});
		case 'SupportRemoved':
			return touchAll({...state, blocked: false});
		case 'ClawTurned': {
			const trebleTurns = state.claw.trebleTurns + fact.trebleTurns;
			const bassTurns = state.claw.bassTurns + fact.bassTurns;
			const claw = {meanTurns: (trebleTurns + bassTurns) / 2, trebleTurns, bassTurns};
			// On a support the claw only loads the support; nothing sounds different until it comes out.
			return adjusted(state.blocked ? {...state, claw} : touchAll({...state, claw}));
		}
		case 'SpringsChanged':
			return state.blocked ? {...state, springs: fact.springs} : touchAll({...state, springs: fact.springs});
		case 'PlateMeasured':
			return {...state, plate: {tailMm: fact.tailMm, touchedSince: 0}};
		case 'StringRemoved':
			return touch(withString(state, fact.string, cleared('off')), fact.string);
		case 'StringFitted':
			return touch(withString(state, fact.string, cleared('slack')), fact.string);
		case 'StringSlackened':
			return touch(
				withString(state, fact.string, session => ({...session, fitted: 'slack'})),
				fact.string,
			);
		case 'StringStretched':
			return touch(
				withString(state, fact.string, session => ({...session, stretched: session.stretched + 1})),
				fact.string,
			);
		case 'PegTurned':
			return adjusted(
				touch(
					withString(state, fact.string, session => adjustedString({...session, fitted: 'on'})),
					fact.string,
				),
			);
		case 'FineTunerTurned':
			return adjusted(touch(withString(state, fact.string, adjustedString), fact.string));
		case 'PitchRead':
			return withString(state, fact.string, session => read(session, fact));
		case 'StringSlipped':
			return touch(
				withString(state, fact.string, session => ({...session, slips: session.slips + 1})),
				fact.string,
			);
		case 'SaddleMoved':
			return adjusted(
				touch(
					withString(state, fact.string, session => ({
						...adjustedString(session),
						saddleMovedMm: session.saddleMovedMm + fact.travelMm,
						...(session.saddleMm === undefined ? {} : {saddleMm: session.saddleMm + fact.travelMm}),
						...(fact.hole === undefined ? {} : {hole: fact.hole}),
					})),
					fact.string,
				),
			);
		case 'SaddleMeasured':
			return withString(state, fact.string, session => ({...session, saddleMm: fact.positionMm}));
		case 'DayPassed':
			return touchAll(state);
		case 'ArmMoved':
			return touchAll({...state, armMotions: [...state.armMotions, fact.motion]});
		default: {
			// A new kind of fact does not compile until it has a case above.
			const unhandled: never = fact;
			throw new RangeError(`evolve: expected a known type of fact, got ${JSON.stringify(unhandled)}`);
		}
	}
}

function withString(
	state: SessionState,
	string: StringNumber,
	change: (session: StringSession) => StringSession,
): SessionState {
	return {...state, strings: {...state.strings, [string]: change(state.strings[string])}};
}

/** A string taken off or put on has no past of its own; its saddle stays where it was. */
function cleared(fitted: StringSession['fitted']) {
	return ({lastHow: _, ...session}: StringSession): StringSession => ({
		...session,
		fitted,
		readings: {},
		stretched: 0,
		slips: 0,
	});
}

function adjustedString(session: StringSession): StringSession {
	return {...session, adjustments: session.adjustments + 1};
}

function adjusted(state: SessionState): SessionState {
	return {...state, adjustments: state.adjustments + 1};
}

/** One string's tension changed: through the bridge that moves them all, unless a support holds it. */
function touch(state: SessionState, string: StringNumber): SessionState {
	if (!state.blocked) return touchAll(state);
	return {
		...withString(state, string, session => ({...session, touches: session.touches + 1})),
		lastTouch: state.facts,
	};
}

function touchAll(state: SessionState): SessionState {
	const strings = {...state.strings};
	for (const string of stringNumbers) strings[string] = {...strings[string], touches: strings[string].touches + 1};
	const plate = state.plate && {...state.plate, touchedSince: state.plate.touchedSince + 1};
	return {...state, strings, lastTouch: state.facts, ...(plate && {plate})};
}

function read(session: StringSession, fact: Fact & {type: 'PitchRead'}): StringSession {
	const earlier = session.readings[fact.how];
	// Plucks are alike only while nothing was touched and the finger stays at the same fret.
	const isRepeat = earlier?.touches === session.touches && earlier.last.fret === fact.fret;
	const reading: ReadingSession = {
		cents: isRepeat ? [...earlier.cents, fact.cents] : [fact.cents],
		last: fact,
		touches: session.touches,
	};
	// A string that sounds is up, even if nobody said that its peg was turned.
	return {...session, fitted: 'on', readings: {...session.readings, [fact.how]: reading}, lastHow: fact.how};
}
