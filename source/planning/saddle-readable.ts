import type {Estimate} from '../numeric/estimate.ts';
import {ninetyPercent} from '../numeric/normal.ts';

/**
 * A string this far from pitch still tells its intonation: harmonic and
 * fretted note are read against each other, and 8 cents are 0.9 % of tension,
 * which changes a fretted note that is 15 cents sharp by 0.15 cent. To tune
 * finer before it is proved is work twice done, for strings that were slack
 * go on seating while they are plucked.
 */
const nearPitchCents = 8;

/**
 * True when intonation can be read although the strings are not in tune.
 *
 * @param now Cents of every string; `undefined` for one that hangs slack or was not heard since it was turned.
 */
export function areNearPitch(now: readonly (Estimate | undefined)[]): boolean {
	return now.every(each => each !== undefined && Math.abs(each.mean) + ninetyPercent * each.sd <= nearPitchCents);
}
