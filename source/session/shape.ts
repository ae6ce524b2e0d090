/**
 * Small checks on values that come from outside (a file, another program),
 * composed into tables that the compiler keeps complete. They look at kind
 * and nesting only; ranges are `decide`'s business.
 */
export type Check = (value: unknown) => boolean;

export const isText: Check = value => typeof value === 'string';
export const isNumber: Check = value => typeof value === 'number' && Number.isFinite(value);
export const isWhole: Check = value => Number.isSafeInteger(value);
export const isFlag: Check = value => typeof value === 'boolean';

export function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
	return typeof value === 'object' && value !== null && !Array.isArray(value);
}

export function isOneOf(allowed: readonly unknown[]): Check {
	return value => allowed.includes(value);
}

export function isListOf(check: Check): Check {
	return value => Array.isArray(value) && value.every(item => check(item));
}

export function optional(check: Check): Check {
	return value => value === undefined || check(value);
}

/** One check for every field of `T`, optional ones included; a field added to `T` does not compile until it has one. */
export type ShapeOf<T> = {readonly [K in keyof T]-?: Check};

/** Fields beyond the shape are let through: a file may carry remarks. */
export function hasShape(shape: Readonly<Record<string, Check>>): Check {
	const checks = Object.entries(shape);
	return value => isRecord(value) && checks.every(([field, check]) => check(value[field]));
}
