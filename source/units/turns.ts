import {formatNumber, isShowable, minusSign, unknown} from './number.ts';
import {halfWidth} from './spread.ts';

/** A hand sets a screw to an eighth of a turn, hardly finer (common practice, no source). */
const eighths = 8;

/**
 * Turns as a hand counts them, to the nearest eighth: `3/8 turn tighter`,
 * `1 1/4 turns looser`, `no turn`; less than half an eighth but not nothing is
 * `a hair tighter`. Positive tightens.
 */
export function formatTurns(turns: number): string {
	if (!isShowable(turns)) {
		return unknown;
	}

	const way = turns > 0 ? 'tighter' : 'looser';
	const fraction = mixedEighths(turns);
	if (fraction === '0') {
		return Math.abs(turns) < 0.01 ? 'no turn' : `a hair ${way}`;
	}

	return `${fraction} ${Math.abs(turns) > 1 + 1 / (2 * eighths) ? 'turns' : 'turn'} ${way}`;
}

/** `+3/8`, `−1 1/4`, `0`: the same for a table. */
export function formatTurnsShort(turns: number): string {
	if (!isShowable(turns)) {
		return unknown;
	}

	const fraction = mixedEighths(turns);
	return fraction === '0' ? '0' : `${turns > 0 ? '+' : minusSign}${fraction}`;
}

/**
 * `3/8 turn tighter, give or take 1/8`: mean and 90 % half-width, the latter
 * rounded up to the eighth that it reaches.
 */
export function formatTurnsSpread(turns: {readonly mean: number; readonly sd: number}): string {
	const half = formatTurnsHalf(turns);
	const words = formatTurns(turns.mean);
	return words === unknown || half === unknown ? unknown : `${words}, give or take ${half}`;
}

/** `1/8`: the 90 % half-width alone, rounded up to the eighth that it reaches. */
export function formatTurnsHalf(turns: {readonly mean: number; readonly sd: number}): string {
	const half = halfWidth(turns);
	return isShowable(half) ? mixedEighths(Math.ceil(half * eighths - 1e-9) / eighths || 1 / eighths) : unknown;
}

/** Size alone, nearest eighth, in lowest terms: `0`, `3/8`, `1 1/4`, `2`. */
function mixedEighths(turns: number): string {
	const count = Math.round(Math.abs(turns) * eighths);
	const whole = Math.floor(count / eighths);
	let [top, bottom] = [count % eighths, eighths];
	while (top > 0 && top % 2 === 0) {
		[top, bottom] = [top / 2, bottom / 2];
	}

	const parts = [whole > 0 || top === 0 ? formatNumber(whole, 0) : '', top > 0 ? `${top}/${bottom}` : ''];
	return parts.filter(Boolean).join(' ');
}
