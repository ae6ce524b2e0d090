import {expect, test} from 'vitest';
import {ninetyPercent, probabilityWithin} from '../../source/numeric/normal.ts';

// Standard normal table: 90 % lie within 1.645, 95 % within 1.960, 68.27 % within 1.
test.each([
	[ninetyPercent, 0.9],
	[1.96, 0.95],
	[1, 0.6827],
])('within %f standard deviations lie %f of all', (limit, share) => {
	expect(probabilityWithin({mean: 0, sd: 1}, limit)).toBeCloseTo(share, 3);
	expect(probabilityWithin({mean: 0, sd: 7}, 7 * limit)).toBeCloseTo(share, 3);
});

test('without spread it is certain one way or the other', () => {
	expect(probabilityWithin({mean: 1.9, sd: 0}, 2)).toBe(1);
	expect(probabilityWithin({mean: -2.1, sd: 0}, 2)).toBe(0);
});
