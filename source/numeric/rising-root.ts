/**
 * Root of an increasing function on [low, high], by Newton steps kept inside a
 * shrinking bracket (bisection when a step leaves it).
 *
 * @param slopeAndValue Writes the value and its derivative at `x` as a pair;
 * the value must not decrease with x, kinks are allowed.
 * @param start First guess; anything outside the bracket is moved inside.
 * @returns The root to within `tolerance`; the nearer end of the bracket when
 * the function does not change sign in it (a stop is reached).
 */
export function risingRoot(
	slopeAndValue: (x: number) => readonly [value: number, slope: number],
	bracket: {readonly low: number; readonly high: number; readonly start: number; readonly tolerance: number},
): number {
	let {low, high} = bracket;
	let x = Math.min(high, Math.max(low, bracket.start));
	let highTried = false;
	let lowTried = false;
	for (let step = 0; step < 80; step++) {
		const [value, slope] = slopeAndValue(x);
		if (value === 0) return x;
		if (value > 0) {
			if (x === low) return low;
			high = x;
		} else {
			if (x === high) return high;
			low = x;
		}

		let next = slope > 0 ? x - value / slope : Number.NaN;
		if (!(next > low && next < high)) {
			// A step past an end first looks at that end: resting on a stop is common.
			if (next >= high && !highTried) {
				highTried = true;
				next = high;
			} else if (next <= low && !lowTried) {
				lowTried = true;
				next = low;
			} else {
				next = (low + high) / 2;
			}
		}

		if (Math.abs(next - x) < bracket.tolerance) return next;
		x = next;
	}

	return x;
}
