import type {StringNumber} from '../music/string-number.ts';
import type {Deed} from './facts.ts';

export interface ClawUntil {
	readonly string: StringNumber;
	readonly cents: number;
	/** About so many, positive = tighter. */
	readonly turns: number;
	/** What a support still kept the tail from. */
	readonly from?: 'rising' | 'falling' | undefined;
}

/**
 * Both claw screws turned alike until a string showed so many cents.
 */
export function clawUntil({string, cents, turns, from}: ClawUntil): Deed {
	return {
		type: 'ClawTurned',
		trebleTurns: turns,
		bassTurns: turns,
		until: {string, cents, ...(from === undefined ? {} : {from})},
	};
}
