import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {drawGuitar, type Start} from '../../source/practice/index.ts';
import {nines, sevens} from '../../source/practice/ensembles.ts';
import {openCents} from '../../source/practice/sound.ts';
import {firstBelief} from '../bench/first-belief.ts';
import {guidedPass} from '../bench/tool-pass.ts';

/** Seeds of their own: the benchmark's start at 10 000. */
function passOf(start: Start, seed: number) {
	const guitar = drawGuitar(rngFrom(seed, 1), (seed % 2 ? nines : sevens).spec, {start});
	const isNew = start === 'slack' || start === 'new-gauge';
	return guidedPass(rngFrom(seed, 2), guitar, firstBelief(guitar, isNew, start === 'slack'), usualGoal);
}

const seeds = [701, 702, 703, 704];

describe.each(['drift', 'whole-tone-flat', 'new-gauge', 'slack'] as const)('guided from %s', start => {
	const passes = seeds.map(seed => passOf(start, seed));

	test('the pass ends, with every string near enough by the hidden truth', () => {
		for (const {finished, guitar} of passes) {
			expect(finished).toBe(true);
			// A tenth of a cent beyond what is asked for one string in a hundred: here none may be half a cent off.
			for (const index of guitar.strings.keys()) expect(Math.abs(openCents(guitar, index)!)).toBeLessThan(2.5);
		}
	});

	test('it takes far fewer turns than three for every string', () => {
		for (const {adjustments, guitar} of passes) expect(adjustments).toBeLessThan(3 * guitar.strings.length);
	});

	test('no plain string is brought beyond 80 % of its minimum strength', () => {
		for (const {strain} of passes) expect(strain).toBeLessThan(0.8);
	});

	test('forecast moves cover what truly happened about as often as they claim', () => {
		const shifts = passes.flatMap(pass => pass.shifts);
		const within = shifts.filter(shift => Math.abs(shift.true - shift.predicted) <= 1.645 * shift.sd).length;
		// 90 % claimed; some two hundred moves that are not independent of each other.
		expect(within / shifts.length).toBeGreaterThan(0.75);
	});
});
