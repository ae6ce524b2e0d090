import {expect, test} from 'vitest';
import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {propagated} from '../../source/estimation/gaussian.ts';
import {learn} from '../../source/estimation/learn.ts';
import {centsOf} from '../../source/planning/landing.ts';
import {nines} from '../helpers/instrument.ts';

/** Every string heard so often that nothing about it is open. */
function wellHeard(): Belief {
	let belief = priorBelief(nines(), {nut: 'locked', newness: 0});
	for (let round = 0; round < 6; round++) {
		for (const index of belief.strings.keys()) belief = learn(belief, {kind: 'pitch', index, cents: 0});
	}

	return belief;
}

const now = (belief: Belief) => propagated(belief, x => centsOf(belief, x)).estimates.map(each => each!);

test('after the arm was moved one string alone may stand elsewhere, and a reading of it is believed', () => {
	const before = wellHeard();
	const after = learn(before, {kind: 'arm'});
	for (const [index, {sd}] of now(after).entries()) expect(sd).toBeGreaterThan(now(before)[index]!.sd + 0.4);
	// The third read flat twice, the others as they were.
	const cents = [0, 0, -2.4, 0, 0, 0];
	let told = after;
	for (const [index, read] of [...cents.entries(), [2, -2.4] as const]) {
		told = learn(told, {kind: 'pitch', index, cents: read});
	}

	expect(now(told)[2]!.mean).toBeLessThan(-1.8);
	expect(Math.abs(now(told)[0]!.mean)).toBeLessThan(0.5);
});
