import type {StringNumber} from '../../music/string-number.ts';
import type {Bench} from '../../session/bench.ts';
import {formatTail} from '../../units/length.ts';
import {formatTurns} from '../../units/turns.ts';
import {fit as words} from './words.ts';

/** A string off, or about to be: what playing on without it would take. With a like one on the others come back by themselves. */
export function lostLine(string: StringNumber, {without, sheet}: Bench): string {
	const {clawTurns, tailAtPitchMm} = without(string);
	return words.without(formatTurns(clawTurns.mean), formatTail(tailAtPitchMm.mean, sheet.units));
}
