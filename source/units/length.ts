import {mmFromThou, mmTo, thouFromMm, type Units} from './convert.ts';
import {formatNumber, formatTrimmed, isShowable, minusSign, unknown} from './number.ts';
import {formatSpread} from './spread.ts';

type LengthUnit = Pick<Units, 'length'>;

/** Decimals for saddle moves and heights: 0.01 mm and 0.001 in are both finer than a hand can set. */
const fineDecimals: Readonly<Record<Units['length'], number>> = {mm: 2, in: 3};

/** `1.24 mm`, `0.049 in`; with `signed`, `+1.24 mm`. */
export function formatLength(lengthMm: number, units: LengthUnit, options: {readonly signed?: boolean} = {}): string {
	return `${formatNumber(mmTo(lengthMm, units.length), fineDecimals[units.length], options)} ${units.length}`;
}

/** As `formatLength` without needless zeros, for lengths that were typed: `648 mm`, `25.5 in`, `1.6 mm`. */
export function formatTypedLength(lengthMm: number, units: LengthUnit): string {
	return `${formatTrimmed(mmTo(lengthMm, units.length), fineDecimals[units.length])} ${units.length}`;
}

/** `+1.24 ±0.10 mm`: mean and 90 % half-width, both millimetres. */
export function formatLengthSpread(
	lengthMm: {readonly mean: number; readonly sd: number},
	units: LengthUnit,
	options: {readonly signed?: boolean} = {},
): string {
	const spread = {mean: mmTo(lengthMm.mean, units.length), sd: mmTo(lengthMm.sd, units.length)};
	return `${formatSpread(spread, fineDecimals[units.length], options)} ${units.length}`;
}

/** Saddle travel in words: `1.24 mm back` (away from the neck, positive), `0.40 mm forward`, `no move`. */
export function formatTravel(travelMm: number, units: LengthUnit): string {
	return formatSided(travelMm, units, ['back', 'forward', 'no move']);
}

/** Height of the tail edge in words: `0.40 mm high` (positive), `0.40 mm low`, `level`. */
export function formatTail(tailMm: number, units: LengthUnit): string {
	return formatSided(tailMm, units, ['high', 'low', 'level']);
}

function formatSided(
	lengthMm: number,
	units: LengthUnit,
	[positive, negative, zero]: readonly [string, string, string],
): string {
	if (!isShowable(lengthMm)) {
		return unknown;
	}

	const text = formatLength(Math.abs(lengthMm), units);
	if (Number.parseFloat(text) === 0) {
		return zero;
	}

	return `${text} ${lengthMm > 0 ? positive : negative}`;
}

/** On a rule marked in 64ths, not reduced so that marks can be counted: `4/64 in`, `25 32/64 in`. */
export function formatSixtyFourths(lengthMm: number): string {
	if (!isShowable(lengthMm)) {
		return unknown;
	}

	const marks = Math.round(Math.abs(mmTo(lengthMm, 'in')) * 64);
	const sign = lengthMm < 0 && marks > 0 ? minusSign : '';
	const inches = Math.floor(marks / 64);
	const rest = marks % 64;
	const parts = [inches > 0 || rest === 0 ? `${inches}` : '', rest > 0 ? `${rest}/64` : ''];
	return `${sign}${parts.filter(Boolean).join(' ')} in`;
}

/** Gauge as sets are sold: `.009`, `.042w`; with millimetres chosen, `0.23 mm`, `1.07 mm w`. */
export function formatGauge(gaugeThou: number, wound: boolean, units: LengthUnit): string {
	if (units.length === 'mm') {
		return `${formatNumber(mmFromThou(gaugeThou), 2)} mm${wound ? ' w' : ''}`;
	}

	return `${formatInchGauge(gaugeThou)}${wound ? 'w' : ''}`;
}

/** Gauge of a string measured in millimetres, to a tenth of a thousandth of an inch. */
export function gaugeThouFromMm(diameterMm: number): number {
	return Math.round(thouFromMm(diameterMm) * 10) / 10;
}

function formatInchGauge(gaugeThou: number): string {
	return formatNumber(gaugeThou / 1000, Number.isInteger(gaugeThou) ? 3 : 4).replace(/^0/, '');
}
