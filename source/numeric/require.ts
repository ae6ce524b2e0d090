/**
 * Guards for the public doors of numerical functions. A number out of range
 * there is a bug of the caller, never something a person typed, so it throws,
 * in one grammar: `idealFrequencyHz: expected tensionN to be positive and
 * finite, got 0`.
 */

/** @throws {RangeError} Naming the first of `quantities` that is not positive and finite. */
export function requirePositive(where: string, quantities: Readonly<Record<string, number>>): void {
	for (const [name, value] of Object.entries(quantities)) {
		if (!(value > 0 && Number.isFinite(value))) {
			throw new RangeError(`${where}: expected ${name} to be positive and finite, got ${value}`);
		}
	}
}

/** @throws {RangeError} Naming the first of `quantities` that is negative, infinite or not a number. */
export function requireNotNegative(where: string, quantities: Readonly<Record<string, number>>): void {
	for (const [name, value] of Object.entries(quantities)) {
		if (!(value >= 0 && Number.isFinite(value))) {
			throw new RangeError(`${where}: expected ${name} to be zero or positive and finite, got ${value}`);
		}
	}
}

/** @throws {RangeError} Naming the first of `quantities` that is infinite or not a number. */
export function requireFinite(where: string, quantities: Readonly<Record<string, number>>): void {
	for (const [name, value] of Object.entries(quantities)) {
		if (!Number.isFinite(value)) {
			throw new RangeError(`${where}: expected ${name} to be finite, got ${value}`);
		}
	}
}
