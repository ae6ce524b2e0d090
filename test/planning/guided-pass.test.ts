import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {learn} from '../../source/estimation/learn.ts';
import {usualGoal} from '../../source/planning/goal.ts';
import {drawGuitar, placeSupport, type Start} from '../../source/practice/index.ts';
import {eights, nines, sevens} from '../../source/practice/ensembles.ts';
import {openCents} from '../../source/practice/sound.ts';
import {firstBelief} from '../bench/first-belief.ts';
import {goRound} from '../bench/other-ways.ts';
import {guidedPass} from '../bench/tool-pass.ts';

function guitarOf(start: Start, seed: number) {
	return drawGuitar(rngFrom(seed, 1), (seed % 2 ? nines : sevens).spec, {start});
}

/** Seeds of their own: the benchmark's start at 10 000. */
function passOf(start: Start, seed: number) {
	const guitar = guitarOf(start, seed);
	const isNew = start === 'slack' || start === 'new-gauge';
	return guidedPass(rngFrom(seed, 2), guitar, firstBelief(guitar, isNew, start === 'slack'), usualGoal);
}

const seeds = [701, 702, 703, 704];

describe.each(['drift', 'whole-tone-flat', 'new-gauge', 'slack'] as const)('guided from %s', start => {
	const passes = seeds.map(seed => passOf(start, seed));

	test('the pass ends, with every string near enough by the hidden truth', () => {
		for (const {finished, guitar} of passes) {
			expect(finished).toBe(true);
			// Asked for is 2; one string in some hundreds ends a few tenths outside.
			for (const index of guitar.strings.keys()) expect(Math.abs(openCents(guitar, index)!)).toBeLessThan(2.5);
		}
	});

	test('it takes less than two thirds of the turns that going round takes on the same guitars', () => {
		const turns = passes.reduce((sum, {adjustments}) => sum + adjustments, 0);
		const round = seeds.reduce(
			(sum, seed) => sum + goRound(rngFrom(seed, 3), guitarOf(start, seed), usualGoal).adjustments,
			0,
		);
		expect(turns / round).toBeLessThan(0.67);
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

describe('with the nut locked, by fine tuners', () => {
	test('the same advice brings eight and six strings home that are a few cents off', () => {
		for (const [seed, {spec}] of [nines, eights].entries()) {
			const guitar = drawGuitar(rngFrom(seed, 11), spec, {start: 'intonation-off', nut: 'locked'});
			const {finished, guitar: after} = guidedPass(
				rngFrom(seed, 12),
				guitar,
				firstBelief(guitar, false, false),
				usualGoal,
			);
			expect(finished).toBe(true);
			for (const index of after.strings.keys()) expect(Math.abs(openCents(after, index)!)).toBeLessThan(2.5);
		}
	});
});

describe('on a support', () => {
	test('every string is turned once at most beyond what the hand misses', () => {
		const free = drawGuitar(rngFrom(5, 11), nines.spec, {start: 'whole-tone-flat'});
		const guitar = placeSupport(free);
		const belief = learn(firstBelief(free, false, false), {kind: 'support-in'});
		const {finished, adjustments} = guidedPass(rngFrom(5, 12), guitar, belief, usualGoal);
		expect(finished).toBe(true);
		expect(adjustments).toBeLessThanOrEqual(guitar.strings.length + 2);
	});
});

test('with the plate on its stop no string is turned over and over to learn what only the others can tell', () => {
	// This guitar was once given ten turns of two strings before the third was touched.
	const guitar = drawGuitar(rngFrom(40_000, 1), sevens.spec, {start: 'slack'});
	const {log} = guidedPass(rngFrom(40_000, 2), guitar, firstBelief(guitar, true, true), usualGoal, {log: true});
	const turned = log.flatMap(line => (line.startsWith('TURN') ? [Number(line.split(' ')[1])] : []));
	const untilAllTight = Math.max(...guitar.strings.map((_, index) => turned.indexOf(index + 1))) + 1;
	expect(untilAllTight).toBeLessThanOrEqual(guitar.strings.length + 2);
});
