/** Millimetres in an inch: exact by definition (international yard, 1959). */
export const mmPerInch = 25.4;

/** Newtons in a pound-force: exact, from the pound of 1959 and standard gravity 9.80665 m/s². */
export const newtonsPerLbf = 4.448_221_615_260_5;

/** Newtons in a kilogram-force: standard gravity, exact. */
export const newtonsPerKgf = 9.806_65;

/** Units in which a person likes to read and type lengths and forces. */
export interface Units {
	readonly length: 'mm' | 'in';
	readonly force: 'N' | 'lbf' | 'kgf';
}

export const lengthUnits = ['mm', 'in'] as const satisfies readonly Units['length'][];
export const forceUnits = ['N', 'lbf', 'kgf'] as const satisfies readonly Units['force'][];

const mmPer: Readonly<Record<Units['length'], number>> = {mm: 1, in: mmPerInch};
const newtonsPer: Readonly<Record<Units['force'], number>> = {N: 1, lbf: newtonsPerLbf, kgf: newtonsPerKgf};

/** Millimetres of a length given in that unit. */
export function mmFrom(length: number, unit: Units['length']): number {
	return length * mmPer[unit];
}

/** A length of so many millimetres, in that unit. */
export function mmTo(lengthMm: number, unit: Units['length']): number {
	return lengthMm / mmPer[unit];
}

/** Newtons of a force given in that unit. */
export function newtonsFrom(force: number, unit: Units['force']): number {
	return force * newtonsPer[unit];
}

/** A force of so many newtons, in that unit. */
export function newtonsTo(forceN: number, unit: Units['force']): number {
	return forceN / newtonsPer[unit];
}

/** Metres of so many millimetres. */
export function metresFromMm(lengthMm: number): number {
	return lengthMm / 1000;
}

/** Metres of so many thousandths of an inch, the unit of gauges. */
export function metresFromThou(thou: number): number {
	return (thou * mmPerInch) / 1e6;
}

/** Millimetres of so many thousandths of an inch. */
export function mmFromThou(thou: number): number {
	return (thou * mmPerInch) / 1000;
}

/** Thousandths of an inch of so many millimetres. */
export function thouFromMm(lengthMm: number): number {
	return (lengthMm * 1000) / mmPerInch;
}

/** Degrees of so many radians. */
export function degreesFromRadians(radians: number): number {
	return (radians * 180) / Math.PI;
}

/** Radians of so many degrees. */
export function radiansFromDegrees(degrees: number): number {
	return (degrees * Math.PI) / 180;
}
