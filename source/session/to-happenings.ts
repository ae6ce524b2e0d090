import type {Happening} from '../estimation/happening.ts';
import {clawLiftSdM} from '../planning/claw-lift.ts';
import {clawByEarSdM} from '../planning/claw-return.ts';
import type {StringNumber} from '../music/string-number.ts';
import {targetHzOf} from './instrument.ts';
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
			return [clawOf(fact, then)];
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
			const was = then.strings[index];
			const is = now.strings[index];
			// A fretted note belongs to the saddle's belief, not to the bridge's.
			if (fact.how === 'fretted' || !was || !is) return [];
			const shift = 1200 * Math.log2(targetHzOf(was, then.referenceAHz) / targetHzOf(is, now.referenceAHz));
			return [{kind: 'pitch', index, cents: fact.cents + shift, ...(fact.heard && {heardSdCents: fact.heard.sdCents})}];
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

function clawOf({trebleTurns, bassTurns, until}: Fact & {type: 'ClawTurned'}, then: InstrumentSheet): Happening {
	const advanceM = (((trebleTurns + bassTurns) / 2) * then.clawScrewPitchMm) / 1000;
	return {kind: 'claw', advanceM, ...(until && {sdM: until.from ? clawLiftSdM : clawByEarSdM(advanceM)})};
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
