import type {Happening} from '../estimation/happening.ts';
import {clawLiftSdCents, clawLiftSdM} from '../planning/claw-lift.ts';
import {clawByEarSdM} from '../planning/claw-return.ts';
import type {StringNumber} from '../music/string-number.ts';
import {harmonicAboveOpenCents, targetHzOf} from './instrument.ts';
import type {Fact} from './facts.ts';
import type {InstrumentSheet} from './sheet.ts';

/**
 * A fact of the bench in the belief's terms; most facts are one happening,
 * some are none, some several.
 *
 * @param then The sheet in force when the fact was recorded.
 * @param now The sheet in force at the end: what the belief's cents refer to.
 */
export function happeningsOf(fact: Fact, then: InstrumentSheet, now: InstrumentSheet): readonly Happening[] {
	switch (fact.type) {
		case 'NutOpened':
			return [{kind: 'unclamped'}];
		case 'NutClamped':
			return [{kind: 'clamped'}];
		case 'FineTunersCentred':
			return now.strings.map((_, index) => ({kind: 'slipped', index}));
		case 'SupportPlaced':
			return [{kind: 'support-in', ...(fact.tailMm !== undefined && {tailM: fact.tailMm / 1000})}];
		case 'SupportRemoved':
			return [{kind: 'support-out'}];
		case 'ClawTurned':
			return clawsOf(fact, then, now);
		case 'SpringsChanged':
			return [{kind: 'springs', springs: fact.springs}];
		case 'PlateMeasured':
			return [{kind: 'tail', tailM: fact.tailMm / 1000}];
		case 'StringRemoved':
			return [{kind: 'off', index: indexOf(fact.string)}];
		case 'StringFitted':
			return [{kind: 'fitted', index: indexOf(fact.string)}];
		case 'StringSlackened':
			return [{kind: 'slack', index: indexOf(fact.string)}];
		case 'StringStretched':
			return [{kind: 'pulled', index: indexOf(fact.string)}];
		case 'PegTurned':
		case 'FineTunerTurned':
			return [{kind: 'turned', index: indexOf(fact.string), ...aimOf(fact, then, now)}];
		case 'PitchRead': {
			const index = indexOf(fact.string);
			// A fretted note belongs to the saddle's belief, not to the bridge's.
			const was = then.strings[index];
			if (fact.how === 'fretted' || !was || !now.strings[index]) return [];
			const openCents = fact.cents - (fact.how === 'harmonic' ? harmonicAboveOpenCents(was, then) : 0);
			const cents = openCents + shiftCents(fact.string, then, now);
			return [{kind: 'pitch', index, cents, ...(fact.heard && {heardSdCents: fact.heard.sdCents})}];
		}

		case 'StringSlipped':
			return [{kind: 'slipped', index: indexOf(fact.string)}];
		case 'SaddleMoved':
			return [{kind: 'saddle', index: indexOf(fact.string), travelM: fact.travelMm / 1000}];
		case 'ArmMoved':
		// A night does the like: new strings give, and warmth may bring the plate to rest elsewhere.
		case 'DayPassed':
			return [{kind: 'arm'}];
		case 'SheetFilled':
		case 'StagePassed':
		case 'StageReopened':
		case 'ItemTicked':
		case 'WayChosen':
		case 'NoteWritten':
		case 'SaddleMeasured':
			return [];
		default: {
			const unhandled: never = fact;
			throw new RangeError(`happeningsOf: expected a known type of fact, got ${JSON.stringify(unhandled)}`);
		}
	}
}

function clawsOf(
	{trebleTurns, bassTurns, until}: Fact & {type: 'ClawTurned'},
	then: InstrumentSheet,
	now: InstrumentSheet,
): readonly Happening[] {
	const advanceM = (((trebleTurns + bassTurns) / 2) * then.clawScrewPitchMm) / 1000;
	if (!until?.from) return [{kind: 'claw', advanceM, ...(until && {sdM: clawByEarSdM(advanceM)})}];
	// The plate has come off its support, and the string that stirred says where it stands.
	const {string, cents} = until;
	const stirred: Happening = {
		kind: 'pitch',
		index: indexOf(string),
		cents: cents + shiftCents(string, then, now),
		sdCents: clawLiftSdCents,
	};
	return [{kind: 'claw', advanceM, sdM: clawLiftSdM}, {kind: 'support-out'}, stirred];
}

/** What to add to cents of the target then for cents of the target now. */
function shiftCents(string: StringNumber, then: InstrumentSheet, now: InstrumentSheet): number {
	const was = then.strings[indexOf(string)];
	const is = now.strings[indexOf(string)];
	return was && is ? 1200 * Math.log2(targetHzOf(was, then.referenceAHz) / targetHzOf(is, now.referenceAHz)) : 0;
}

/** Where the hand meant to stop; none if the target was changed since. */
function aimOf(
	{string, untilCents}: Fact & {type: 'PegTurned' | 'FineTunerTurned'},
	then: InstrumentSheet,
	now: InstrumentSheet,
): {aimCents: number} | Record<never, never> {
	const was = then.strings[indexOf(string)];
	const is = now.strings[indexOf(string)];
	const isSame = was && is && targetHzOf(was, then.referenceAHz) === targetHzOf(is, now.referenceAHz);
	return untilCents !== undefined && isSame ? {aimCents: untilCents} : {};
}

/** Strings count from 1, the belief's rows from 0. */
export function indexOf(string: StringNumber): number {
	return string - 1;
}
