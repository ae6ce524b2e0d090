import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatTravel} from '../../units/length.ts';
import {formatPercent} from '../../units/quantities.ts';
import {planned, travelMmOf} from './status.ts';
import {words} from './words.ts';

/** Before anything is slackened: how far and which way each is to go, and what is out of the ordinary about it. */
export function planLines(rows: readonly StringRow[], {sheet}: Bench): readonly string[] {
	const moves = rows.map(row => words.planned(row.string, formatTravel(travelMmOf(row), sheet.units)));
	return [words.plan(moves.join(', ')), ...rows.flatMap(reachLine)];
}

/** Nothing to say when the saddle can go there with its screw where it is. */
export function reachLine(row: StringRow): readonly string[] {
	const {string} = row;
	if (planned(row).kind === 'out-of-travel') return [words.endOfTravel(string)];
	const reach = row.saddle?.reach;
	if (reach?.kind !== 'reachable') return [words.travelUnknown(string)];
	return reach.changesHole ? [words.otherHole[reach.hole](string)] : [];
}

/** What the move should bring, with its chance. */
export function expectedLine({saddle}: StringRow): readonly string[] {
	if (!saddle) return [];
	return [words.expected(formatCentsSpread(saddle.expectedCents), formatPercent(saddle.chanceWithin.after))];
}

/** Another story than that all went as expected, named even when the plan goes on. */
export function suspicionLine({saddle}: StringRow): readonly string[] {
	const suspicion = saddle?.suspicion;
	return suspicion ? [words.suspicion(words.causes[suspicion.cause], formatPercent(suspicion.chance))] : [];
}
