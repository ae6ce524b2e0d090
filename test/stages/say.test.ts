import {expect, test} from 'vitest';
import {aimShown} from '../../source/stages/common/say.ts';
import {benchWith} from '../helpers/bench.ts';

const bench = benchWith();
const thickest = bench.strings[5]!;

test.each([
	[23, '+23 cents'],
	[112, '+112 cents (F2 +12)'],
	[-700, '−700 cents (A1 0)'],
	// Below what any note name reaches: a string that is to be let off further than it can sound.
	[-3762, '−3762 cents'],
])('an aim of %d cents is said as %s', (cents, said) => {
	expect(aimShown(thickest, cents, bench)).toBe(said);
});
