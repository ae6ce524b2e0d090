import {stringNumbers} from '../music/string-number.ts';
import type {InstrumentSheet, StringSheet} from './sheet.ts';
import type {SessionState, StringSession} from './state.ts';

/**
 * Intake filled, or edited later. What the sheet newly says replaces what was
 * derived; what it merely repeats leaves the session's own course alone (a
 * saddle moved since, a spring added since).
 */
export function fillSheet(state: SessionState, sheet: InstrumentSheet): SessionState {
	const before = state.sheet;
	const strings = {...state.strings};
	for (const string of stringNumbers) {
		const row = sheet.strings[string - 1];
		if (row === undefined) continue;
		const rowBefore = before?.strings[string - 1];
		const isNewTarget =
			before !== undefined && (before.referenceAHz !== sheet.referenceAHz || isOtherTarget(rowBefore, row));
		const session = isNewTarget ? withoutReadings(strings[string]) : strings[string];
		const isNewSaddle = row.saddleMm !== undefined && row.saddleMm !== rowBefore?.saddleMm;
		strings[string] = isNewSaddle ? {...session, saddleMm: row.saddleMm} : session;
	}
	const springs = before?.springs === sheet.springs ? state.springs : sheet.springs;
	return {...state, sheet, strings, springs};
}

/** Cents were said against the old target and mean nothing against a new one. */
function isOtherTarget(before: StringSheet | undefined, now: StringSheet): boolean {
	return before?.note !== now.note || (before.offsetCents ?? 0) !== (now.offsetCents ?? 0);
}

function withoutReadings({lastHow: _, ...session}: StringSession): StringSession {
	return {...session, readings: {}};
}
