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
