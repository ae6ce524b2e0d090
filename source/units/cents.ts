import {formatNumber, isShowable, unknown} from './number.ts';
import {formatSpread} from './spread.ts';

/** `+3.2`: a column of cents needs no unit; positive is sharp. */
export function formatCents(cents: number, decimals = 1): string {
	return formatNumber(cents, decimals, {signed: true});
}

/** `+3.2 cents`. */
export function formatCentsUnit(cents: number, decimals = 1): string {
	const number = formatCents(cents, decimals);
	return `${number} ${/^[+−]?1(\.0+)?$/.test(number) ? 'cent' : 'cents'}`;
}

/** `3.2 cents sharp`, `12.0 cents flat`, `in tune` (when it would be shown as zero). */
export function formatCentsWords(cents: number, decimals = 1): string {
	if (!isShowable(cents)) {
		return unknown;
	}

	const amount = formatNumber(Math.abs(cents), decimals);
	if (Number(amount) === 0) {
		return 'in tune';
	}

	return `${formatCentsUnit(Math.abs(cents), decimals).replace('+', '')} ${cents > 0 ? 'sharp' : 'flat'}`;
}

/** `+3.2 ±0.4`: mean and 90 % half-width (see `spread.ts`). */
export function formatCentsSpread(cents: {readonly mean: number; readonly sd: number}): string {
	return formatSpread(cents, 1, {signed: true});
}
