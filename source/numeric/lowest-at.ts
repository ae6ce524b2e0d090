const golden = (Math.sqrt(5) - 1) / 2;

/**
 * Where a function with one valley is lowest, by golden section (J. Kiefer,
 * Proc. Amer. Math. Soc. 4, 502-506, 1953; from memory).
 *
 * @param range `low` < `high`; `tolerance` > 0 is how near the answer comes, in the unit of both.
 */
export function lowestAt(
	value: (at: number) => number,
	range: {readonly low: number; readonly high: number; readonly tolerance: number},
): number {
	let {low, high} = range;
	let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
	let [leftValue, rightValue] = [value(left), value(right)];
	while (high - low > 2 * range.tolerance) {
		if (leftValue < rightValue) {
			high = right;
			[right, rightValue] = [left, leftValue];
			left = high - golden * (high - low);
			leftValue = value(left);
		} else {
			low = left;
			[left, leftValue] = [right, rightValue];
			right = low + golden * (high - low);
			rightValue = value(right);
		}
	}

	return (low + high) / 2;
}
