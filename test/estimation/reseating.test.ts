import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {giveAheadCents} from '../../source/estimation/settling.ts';
import {nines} from '../helpers/instrument.ts';

const settled = priorBelief(nines(), {nut: 'open', newness: 0});
const slackened = (index: number) => learn(settled, {kind: 'slack', index});

describe('a string that hung slack', () => {
	test('is expected to give some cents while its windings seat; one that did not, none', () => {
		for (const index of settled.strings.keys()) {
			expect(giveAheadCents(settled, index)).toBe(0);
			expect(giveAheadCents(slackened(index), index)).toBeGreaterThan(0.1);
			expect(giveAheadCents(slackened(index), index)).toBeLessThan(2);
		}
	});

	test('gives more the less its wire is stretched: the plain third most of the plain ones', () => {
		const [first, second, third] = [0, 1, 2].map(index => giveAheadCents(slackened(index), index));
		expect(second).toBeGreaterThan(first!);
		expect(third).toBeGreaterThan(second!);
	});

	test('needs no pulling by hand for that, and a new one stays as new as it was', () => {
		for (const index of settled.strings.keys()) expect(slackened(index).strings[index]!.newness).toBeLessThan(0.3);
		const fresh = priorBelief(nines(), {nut: 'open', newness: 0.8});
		expect(learn(fresh, {kind: 'slack', index: 2}).strings[2]!.newness).toBe(0.8);
	});
});
