import type {StringNumber} from '../../music/string-number.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {intonationRead, latestPair} from '../../session/report/intonation-read.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {words} from './words.ts';

export const id = 'intonate';

/** Where one string is on its way: `to-read` before any move, `to-verify` after one. */
export type Status = 'to-read' | 'to-verify' | 'to-move' | 'good';

export function statusOf(row: StringRow, bench: Bench): Status {
	const moved = lastOf(bench.story, 'SaddleMoved', row.string);
	if (missing(row.string, bench) !== undefined) return moved < 0 ? 'to-read' : 'to-verify';
	if (isAccepted(row.string, bench)) return 'good';
	const error = errorOf(row, bench);
	return !error || isClose(error, bench) ? 'good' : 'to-move';
}

/** Within tolerance, or so near that the tuner could not tell it from nothing. */
function isClose({mean, sd}: Estimate, {sheet}: Bench): boolean {
	return Math.abs(mean) <= Math.max(sheet.frettedToleranceCents, sd);
}

/**
 * Fretted plucks that a saddle is moved on: a finger presses differently each
 * time, and one cent is a third of a millimetre.
 */
const leastFrettedPlucks = 2;

/**
 * Which reading is still missing since the saddle was moved last: a harmonic
 * and fretted notes with nothing touched in between, the harmonic first.
 */
export function missing(string: StringNumber, {story, lastAdjustment}: Bench): 'harmonic' | 'fretted' | undefined {
	if ((latestPair(story, string)?.frettedPlucks ?? 0) >= leastFrettedPlucks) return undefined;
	return isReadAfter(story, string, 'harmonic', lastAdjustment) ? 'fretted' : 'harmonic';
}

/** Fretted 12th minus harmonic, against what is wanted of this string, cents; undefined until both are read. */
export function errorOf(row: StringRow, bench: Bench): Estimate | undefined {
	const wish = bench.sheet.strings[row.string - 1]?.frettedOffsetCents ?? 0;
	const read = row.intonationCents ?? plainly(intonationRead(bench.story, row.string));
	return read && {mean: read.mean - wish, sd: read.sd};
}

/** A harmonic and two fretted plucks of half a cent each, should nothing better be known. */
function plainly(cents: number | undefined): Estimate | undefined {
	return cents === undefined ? undefined : {mean: cents, sd: 0.6};
}

export function isAccepted(string: StringNumber, {ticked}: Bench): boolean {
	return ticked[words.accepted(string)] === true;
}
