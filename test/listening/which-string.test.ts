import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {believedHz, type StringPlace, whichString} from '../../source/listening/which-string.ts';
import {frequencyHz} from '../../source/music/pitch.ts';
import {stringNumbers} from '../../source/music/string-number.ts';
import {tunings} from '../../source/music/tunings.ts';

const standard = tunings.find(t => t.id === '6-standard')!.notes;

/** Strings believed near their targets. */
function placesOf(notes: readonly string[], sd = 3): readonly StringPlace[] {
	return notes.map((note, i) => ({string: stringNumbers[i]!, targetHz: frequencyHz(note), now: {mean: 0, sd}}));
}

const off = (note: string, cents: number) => ({hz: frequencyHz(note) * 2 ** (cents / 1200), sdCents: 0.1});

describe('six strings, all believed near pitch', () => {
	const places = placesOf(standard);

	test.each(standard)('%s a little off is that string', note => {
		const verdict = whichString(off(note, 4), places, {semitonesUp: 0});
		expect(verdict).toMatchObject({kind: 'string', string: standard.indexOf(note) + 1});
		expect(verdict.kind === 'string' && verdict.cents).toBeCloseTo(4, 6);
	});

	test('another string than the one asked for is asked about', () => {
		const verdict = whichString(off('G3', 2), places, {semitonesUp: 0, asked: 2});
		expect(verdict).toMatchObject({kind: 'doubtful', why: 'another-string'});
		expect(verdict.kind === 'doubtful' && verdict.candidates[0]!.string).toBe(3);
	});

	test('far from every string is asked about', () => {
		expect(whichString(off('B3', 180), places, {semitonesUp: 0})).toMatchObject({
			kind: 'doubtful',
			why: 'far-from-all',
		});
		expect(whichString(off('B3', -60), places, {semitonesUp: 0, asked: 2})).toMatchObject({
			kind: 'doubtful',
			why: 'far-from-all',
		});
	});

	test('an open string where its harmonic was asked for is said to be that', () => {
		const verdict = whichString(off('A2', 1), places, {semitonesUp: 12, asked: 5});
		expect(verdict).toMatchObject({kind: 'doubtful', why: 'played-otherwise'});
		expect(verdict.kind === 'doubtful' && verdict.candidates[0]).toMatchObject({string: 5, semitonesUp: 0});
	});

	test('a fretted note sharp by bad intonation is still taken', () => {
		expect(whichString(off('E5', 14), places, {semitonesUp: 12, asked: 1})).toMatchObject({kind: 'string', string: 1});
	});
});

test('a string never read is taken when it was asked for and no other is near', () => {
	const places = placesOf(standard).map(p => (p.string === 6 ? {string: p.string, targetHz: p.targetHz} : p));
	expect(whichString(off('E2', -350), places, {semitonesUp: 0, asked: 6})).toMatchObject({kind: 'string', string: 6});
	// Where the fifth is believed, it is the fifth.
	expect(whichString(off('A2', 1), places, {semitonesUp: 0, asked: 6}).kind).toBe('doubtful');
});

describe('no string read yet', () => {
	const places = placesOf(standard).map(({string, targetHz}) => ({string, targetHz}));

	test.each(standard)('%s asked for and heard near its target is taken without a question', note => {
		const asked = stringNumbers[standard.indexOf(note)]!;
		for (const cents of [-40, -10, 0, 10, 40])
			expect(whichString(off(note, cents), places, {semitonesUp: 0, asked})).toMatchObject({
				kind: 'string',
				string: asked,
			});
	});

	test('the string beside it, near its own target, is not', () => {
		for (const asked of stringNumbers.slice(0, 5)) {
			const beside = standard[asked as number]!;
			for (const cents of [-40, 0, 40])
				expect(whichString(off(beside, cents), places, {semitonesUp: 0, asked}).kind).toBe('doubtful');
		}
	});
});

test('two loose strings that may be either are asked about', () => {
	const places = placesOf(['E4', 'B3', 'G3', 'D3', 'A2', 'E2'], 200);
	expect(whichString(off('C3', 50), places, {semitonesUp: 0})).toMatchObject({kind: 'doubtful', why: 'between'});
});

test('whatever is taken lies within four standard deviations of its belief and is near certain', () => {
	const places = placesOf(standard, 20);
	fc.assert(
		fc.property(fc.double({min: 60, max: 800, noNaN: true}), fc.constantFrom(0, 12), (hz, semitonesUp) => {
			const verdict = whichString({hz, sdCents: 0.2}, places, {semitonesUp});
			if (verdict.kind === 'string') {
				expect(verdict.probability).toBeGreaterThanOrEqual(0.99);
				expect(Math.abs(verdict.cents)).toBeLessThan(4 * 22);
			}
		}),
	);
});

test('hints hold every string open and an octave up', () => {
	expect(believedHz(placesOf(['A2']))).toEqual([110, 220]);
});
