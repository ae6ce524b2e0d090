import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {centsBar, lastRungCents, rungCents} from '../../source/terminal/cents-bar.ts';
import {asciiGlyphs as glyphs} from '../../source/terminal/glyphs.ts';
import {textOf, widthOf} from '../../source/terminal/line.ts';

const bar = (mean: number, sd = 0, aimCents?: number) =>
	textOf(centsBar({now: {mean, sd}, aimCents, toleranceCents: 1, width: 13, glyphs}));

describe('rungs', () => {
	test('go from the tolerance to the last rung in equal ratios', () => {
		const rungs = rungCents(6, 1);
		expect(rungs[0]).toBeCloseTo(1);
		expect(rungs.at(-1)).toBeCloseTo(lastRungCents);
		for (let at = 1; at < 6; at++) expect(rungs[at]! / rungs[at - 1]!).toBeCloseTo(50 ** 0.2);
	});
});

describe('a bar', () => {
	test('has no bricks within tolerance, and a post of its own', () => {
		expect(bar(0.4)).toBe('......*......');
	});
	test('is laid to the left when flat, to the right when sharp', () => {
		expect(bar(-6)).toBe('...###|......');
		expect(bar(6)).toBe('......|###...');
	});
	test('is loose where the belief is not sure', () => {
		expect(bar(-6, 3)).toBe('..%%%#|......');
		expect(bar(0.2, 1.5)).toBe('....%%*%%....');
	});
	test('ends in an arrow far outside', () => {
		expect(bar(-120)).toBe('<#####|......');
		expect(bar(120)).toBe('......|#####>');
	});
	test('shows the aim on its rung', () => {
		expect(bar(-6, 0, 23)).toBe('...###|....o.');
	});
	test('is empty when nothing is known', () => {
		expect(textOf(centsBar({toleranceCents: 1, width: 13, glyphs}))).toBe('......|......');
	});
	test('is as wide as asked, and a sharp string mirrors a flat one', () => {
		fc.assert(
			fc.property(
				fc.double({min: -300, max: 300, noNaN: true}),
				fc.double({min: 0, max: 60, noNaN: true}),
				fc.integer({min: 1, max: 14}),
				(mean, sd, rungs) => {
					const width = rungs * 2 + 1;
					const draw = (cents: number) => centsBar({now: {mean: cents, sd}, toleranceCents: 2, width, glyphs});
					expect(widthOf(draw(mean))).toBe(width);
					const mirrored = [...textOf(draw(-mean))]
						.toReversed()
						.join('')
						.replaceAll(/[<>]/g, mark => (mark === '<' ? '>' : '<'));
					expect(textOf(draw(mean))).toBe(mirrored);
				},
			),
		);
	});
});
