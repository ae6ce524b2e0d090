import {describe, expect, test} from 'vitest';
import type {Deed} from '../../source/session/facts.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {filled, journalOf, opened, read} from '../helpers/deeds.ts';

const pair = (fretted: number): Deed[] => [read(1, 0, 'harmonic'), read(1, fretted, 'fretted')];
const errorAfter = (...deeds: Deed[]) => benchOf(journalOf(filled, opened, ...deeds).story).strings[0]!.saddle!;

describe('a mistyped fretted note', () => {
	test('is forgotten once three later ones agree that it was wrong', () => {
		const clean = errorAfter(...pair(-4), ...pair(-4.2), ...pair(-3.8), ...pair(-4)).errorCents;
		const mended = errorAfter(...pair(-4), ...pair(45), ...pair(-4.2), ...pair(-3.8), ...pair(-4));
		expect(mended.errorCents.mean).toBeCloseTo(clean.mean, 0);
		expect(mended.step.kind).not.toBe('check');
	});

	test('counts as long as nothing contradicts it', () => {
		expect(errorAfter(...pair(-4), ...pair(45)).step.kind).toBe('check');
	});
});

test('a harmonic tells where the open string stands: less by what stiff wire adds to it', () => {
	// Own derivation beside `test/published/inharmonicity.test.ts`: 3/2 · 1731 · B, a quarter of a cent on a plain third (B 9.7e-5).
	const now = (how: 'open' | 'harmonic', string: 1 | 3) =>
		benchOf(journalOf(filled, opened, read(string, 0, how)).story).strings[string - 1]!.now!.mean;
	expect(now('open', 3) - now('harmonic', 3)).toBeGreaterThan(0.15);
	expect(now('open', 3) - now('harmonic', 3)).toBeLessThan(0.4);
	expect(now('open', 1) - now('harmonic', 1)).toBeLessThan(0.1);
	// And the next harmonic is expected where this one was.
	const bench = benchOf(journalOf(filled, opened, read(3, 0, 'harmonic')).story);
	const [harmonic, open] = (['harmonic', 'open'] as const).map(how => bench.expectReading(3, how)!.mean);
	expect(harmonic! - open!).toBeCloseTo(now('open', 3) - now('harmonic', 3), 1);
});
