import type {StringNumber} from '../music/string-number.ts';
import type {Deed} from './facts.ts';

/**
 * Both claw screws turned alike until a string showed so many cents.
 *
 * @param turns About so many, positive = tighter.
 */
export function clawUntil(string: StringNumber, cents: number, turns: number): Deed {
	return {type: 'ClawTurned', trebleTurns: turns, bassTurns: turns, until: {string, cents}};
}
