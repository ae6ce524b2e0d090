/**
 * What is believed about one number: a mean and a standard deviation, both in
 * the unit that the owner's name states. Unknown is `undefined`, never NaN;
 * uncertain is a large `sd`.
 */
export interface Estimate {
	readonly mean: number;
	/** One standard deviation, ≥ 0. */
	readonly sd: number;
}
