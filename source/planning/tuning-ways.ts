/**
 * Turns to expect of a settled set that stands far off pitch, medians measured
 * on the practice guitar (`npm run bench:tuning`, all strings a whole tone flat).
 */
const beyondStrings = {support: 2, floating: 6} as const;

/** About how many turns of pegs and claw each way takes. */
export function planSupportWay(strings: number): {readonly support: number; readonly floating: number} {
	return {support: strings + beyondStrings.support, floating: strings + beyondStrings.floating};
}
