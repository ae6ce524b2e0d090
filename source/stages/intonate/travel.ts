import {lengthOnlyTravelM} from '../../physics/saddle-move.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {formatTravel} from '../../units/length.ts';
import {errorOf} from './status.ts';
import {words} from './words.ts';

/** How a saddle move stands to the travel that the saddle has. */
export interface Travel {
	/** Wanted, mm, positive = back. */
	readonly wantedMm: number;
	/** What can be had, mm. */
	readonly possibleMm: number;
	/** Travel left behind it in the same direction, mm; undefined while the position is unknown. */
	readonly leftMm?: number;
}

export function travelOf(row: StringRow, bench: Bench): Travel {
	const wantedMm = wantedOf(row, bench);
	const {sheet} = bench;
	const range = sheet.strings[row.string - 1]?.saddleRangeMm;
	if (!range || row.saddleMm === undefined) return {wantedMm, possibleMm: wantedMm};
	const [forwardEnd, backEnd] = range;
	const end = wantedMm >= 0 ? backEnd : forwardEnd;
	const leftMm = Math.abs(end - row.saddleMm) - Math.abs(wantedMm);
	return leftMm >= 0 ? {wantedMm, possibleMm: wantedMm, leftMm} : {wantedMm, possibleMm: end - row.saddleMm, leftMm: 0};
}

/** Where the string's own model has nothing to say yet, length alone does: near enough for a first move. */
function wantedOf(row: StringRow, bench: Bench): number {
	if (row.saddleMoveMm) return row.saddleMoveMm.mean;
	const error = errorOf(row, bench);
	return error ? 1000 * lengthOnlyTravelM(error.mean, bench.sheet.scaleLengthMm / 1000) : 0;
}

/** One line before anything is slackened: how far, which way, and whether the saddle can go there. */
export function planLine(row: StringRow, bench: Bench): string {
	const {units} = bench.sheet;
	const {wantedMm, possibleMm, leftMm} = travelOf(row, bench);
	const wanted = formatTravel(wantedMm, units);
	if (leftMm === undefined) return words.plan(row.string, wanted, words.travelUnknown);
	if (possibleMm !== wantedMm)
		return words.plan(row.string, wanted, words.unreachable(formatTravel(possibleMm, units)));
	return words.plan(row.string, wanted, words.travelLeft(formatTravel(leftMm, units).replace(/ (back|forward)$/, '')));
}
