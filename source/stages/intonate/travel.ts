import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatTravel} from '../../units/length.ts';
import {formatPercent} from '../../units/quantities.ts';
import {planned, travelMmOf} from './status.ts';
import {words} from './words.ts';

/** One line before anything is slackened: how far, which way, and whether the saddle can go there. */
export function planLine(row: StringRow, {sheet}: Bench): string {
	const travel = formatTravel(travelMmOf(row), sheet.units);
	return words.plan(row.string, travel, reachWords(row));
}

function reachWords(row: StringRow): string {
	if (planned(row).kind === 'out-of-travel') return words.endOfTravel;
	const reach = row.saddle?.reach;
	if (reach?.kind !== 'reachable') return words.travelUnknown;
	return reach.changesHole ? words.otherHole[reach.hole] : words.withinTravel;
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
