import {expect, test} from 'vitest';
import {learn} from '../../source/estimation/learn.ts';
import {rngFrom} from '../../source/numeric/rng.ts';
import {consequencesOf} from '../../source/planning/forecast.ts';
import {ensembles} from '../../source/practice/ensembles.ts';
import {drawGuitar} from '../../source/practice/index.ts';
import {trueMoves} from '../../source/practice/truth.ts';
import {firstBelief} from '../bench/first-belief.ts';
import {type Told, toldTruth} from '../bench/told.ts';
import {openCents} from '../../source/practice/sound.ts';

const steady = {handErrorCents: 0, tunerNoiseCents: 0};

/** Root mean square of what forecast moves miss, share of the moves, over one turn of the third string on each of six guitars. */
function missedShare(told: Told): number {
	let [missed, moved] = [0, 0];
	for (const [which, {spec}] of ensembles.entries()) {
		const guitar = drawGuitar(rngFrom(9100 + which, 1), spec, {start: 'drift', ...steady});
		let belief = toldTruth(firstBelief(guitar, false, false), guitar, told);
		for (const index of guitar.strings.keys())
			belief = learn(belief, {kind: 'pitch', index, cents: openCents(guitar, index)!, sdCents: 0.05});
		const toCents = openCents(guitar, 2)! + 60;
		const truth = trueMoves(guitar, 2, toCents);
		for (const [index, move] of consequencesOf(belief, {kind: 'turn', index: 2, toCents}).moves.entries()) {
			if (!move) continue;
			missed += (move.mean - truth[index]!) ** 2;
			moved += truth[index]! ** 2;
		}
	}

	return Math.sqrt(missed / moved);
}

test('told what strings and springs are, the model foretells the simulation to some percent; told nothing, it is several times further off', () => {
	const all = missedShare({weights: true, stretch: true, springs: true});
	expect(all).toBeLessThan(0.08);
	expect(missedShare({})).toBeGreaterThan(3 * all);
	expect(missedShare({springs: true})).toBeLessThan(missedShare({}));
});
