/**
 * Where turns of the claw screws stop being the answer. Common practice, no
 * source: a claw screw of some 30 mm gives about ten millimetres either way
 * before it runs out or sits in too little wood; a spring is neither to hang
 * loose, its coils touching, nor to be drawn near their end. Assumed; each
 * bridge has its own.
 */
export const usualClawTravelM = 0.01;
export const springForceRangeN = [12, 90] as const;
/** Springs that a block takes. Common practice, no source. */
export const springsRange = [1, 6] as const;
/** What hooking a spring one place further out, or slanting it, adds to its stretch, metres. Judgement. */
export const reHookM = 0.0006;
/** Springs of another make differ by this much in rate before they are worth the exchange, and not more than this can be had. Judgement. */
export const exchangeRange = [1.15, 2] as const;
/** A hand sets a screw to an eighth of a turn, hardly finer (common practice, no source). */
export const turnStep = 1 / 8;

/** Turns as a hand makes them: to the nearest eighth. */
export function inEighths(turns: number): number {
	return Math.round(turns / turnStep) * turnStep + 0;
}
