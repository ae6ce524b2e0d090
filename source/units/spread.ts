import {ninetyPercent} from '../numeric/normal.ts';
import {formatNumber, isShowable, unknown} from './number.ts';

/** Mean and one standard deviation, in one unit. */
export interface Spread {
	readonly mean: number;
	readonly sd: number;
}

/**
 * What is shown after "±": half the width of the interval that holds the truth
 * nine times out of ten. Not one standard deviation: a person takes "±" for a
 * promise, and one third of broken promises is too many.
 */
export function halfWidth({sd}: Spread): number {
	return ninetyPercent * sd;
}

/**
 * "+3.2 ±0.4". The spread decides how many decimals are worth showing: none
 * once it reaches ten units of the last digit, and it is never shown as zero.
 *
 * @param decimals Decimals when the spread is small.
 */
export function formatSpread(spread: Spread, decimals: number, options: {readonly signed?: boolean} = {}): string {
	const half = halfWidth(spread);
	if (!isShowable(spread.mean) || !isShowable(half)) {
		return unknown;
	}

	let shown = decimals;
	while (shown > 0 && half >= 100 * 10 ** -shown) {
		shown -= 1;
	}

	const least = 10 ** -shown;
	return `${formatNumber(spread.mean, shown, options)} ±${formatNumber(Math.max(half, least), shown)}`;
}
