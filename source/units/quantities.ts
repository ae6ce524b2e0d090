import {degreesFromRadians, newtonsTo, type Units} from './convert.ts';
import {formatNumber} from './number.ts';
import {formatSpread, type Spread} from './spread.ts';

type ForceUnit = Pick<Units, 'force'>;

const forceDecimals: Readonly<Record<Units['force'], number>> = {N: 1, lbf: 1, kgf: 2};

/** `65.9 N`, `14.8 lbf`, `6.72 kgf`; with `signed`, `+1.2 N`. */
export function formatForce(forceN: number, units: ForceUnit, options: {readonly signed?: boolean} = {}): string {
	return `${formatNumber(newtonsTo(forceN, units.force), forceDecimals[units.force], options)} ${units.force}`;
}

/** `420.3 ±8.1 N`: mean and 90 % half-width. */
export function formatForceSpread({mean, sd}: Spread, units: ForceUnit): string {
	const [shown, spread] = [mean, sd].map(each => newtonsTo(each, units.force));
	return `${formatSpread({mean: shown!, sd: spread!}, forceDecimals[units.force])} ${units.force}`;
}

/** `82.41 Hz`. */
export function formatHertz(hz: number, decimals = 2): string {
	return `${formatNumber(hz, decimals)} Hz`;
}

/** `53 %` of a fraction 0.53: the argument is a share of one, not of a hundred. */
export function formatPercent(fraction: number, decimals = 0): string {
	return `${formatNumber(fraction * 100, decimals)} %`;
}

/** `1.2°` of an angle in degrees; with `signed`, `+1.2°`. */
export function formatDegrees(degrees: number, options: {readonly signed?: boolean} = {}): string {
	return `${formatNumber(degrees, 1, options)}°`;
}

/** `1.2°` of an angle in radians. */
export function formatAngle(radians: number, options: {readonly signed?: boolean} = {}): string {
	return formatDegrees(degreesFromRadians(radians), options);
}

/** `1 string`, `3 strings`. */
export function formatCount(count: number, one: string, many = `${one}s`): string {
	return `${formatNumber(count, 0)} ${count === 1 ? one : many}`;
}
