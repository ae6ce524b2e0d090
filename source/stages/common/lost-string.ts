import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../../session/bench.ts';
import {formatTail} from '../../units/length.ts';
import {formatTurns} from '../../units/turns.ts';
import {fit as words} from './words.ts';

/** A string off, or about to be: the two ways on, with the claw turns of the one that leaves it off. */
export function lostLines(string: StringNumber, {without, sheet}: Bench): readonly string[] {
	const {clawTurns, tailAtPitchMm} = without(string);
	return [words.likeOne, words.without(formatTurns(clawTurns.mean), formatTail(tailAtPitchMm.mean, sheet.units))];
}
