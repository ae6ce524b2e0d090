/**
 * The minus sign of everything shown: U+2212, as wide as a plus sign, so that
 * columns of cents line up and a minus is not taken for a dash. Entries may be
 * typed with either.
 */
export const minusSign = '−';

/** Stands where a number is not known. */
export const unknown = '—';

/**
 * Finite and below 1e12: no length, pitch or force at a bench is larger, and
 * far above it a number would be written with an exponent.
 */
export function isShowable(value: number): boolean {
	return Math.abs(value) < 1e12;
}

/**
 * A number for people: fixed decimals, the proper minus, never "−0.0".
 *
 * @param decimals 0 to 6.
 * @param options.signed Show `+` before positive numbers too.
 * @returns `unknown` (a dash) if the number is not finite or absurdly large, so that a screen never shows NaN.
 */
export function formatNumber(value: number, decimals: number, options: {readonly signed?: boolean} = {}): string {
	if (!isShowable(value)) {
		return unknown;
	}

	const digits = Math.abs(value).toFixed(decimals);
	if (Number(digits) === 0) {
		return digits;
	}

	return `${value < 0 ? minusSign : options.signed ? '+' : ''}${digits}`;
}

/** As `formatNumber`, without zeros at the end of the decimals: `648`, `25.5`. */
export function formatTrimmed(value: number, mostDecimals: number, options: {readonly signed?: boolean} = {}): string {
	const text = formatNumber(value, mostDecimals, options);
	return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
