/**
 * Turns of pegs and claw to expect beyond one for each string, measured on
 * practice guitars: a settled set that stands far off pitch, medians
 * (`npm run bench:tuning`, all strings a whole tone flat); a plate up to 4 mm
 * off with strings near pitch, means (`npm run bench:balance`).
 */
const beyondStrings = {
	'far off': {support: 2, floating: 6},
	tilted: {support: 2, floating: 8},
} as const;

/** About how many turns of pegs and claw each way takes. */
export function planSupportWay(
	strings: number,
	stands: keyof typeof beyondStrings,
): {readonly support: number; readonly floating: number} {
	const {support, floating} = beyondStrings[stands];
	return {support: strings + support, floating: strings + floating};
}
