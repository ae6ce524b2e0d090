import {describe, expect, test} from 'vitest';
import {priorBelief} from '../../source/estimation/belief.ts';
import {believe} from '../../source/estimation/believe.ts';
import {centsOn, grippedAt, poseOf} from '../../source/estimation/hold.ts';
import {learn} from '../../source/estimation/learn.ts';
import {learnedFrom, recalled} from '../../source/estimation/memory.ts';
import {nines} from '../helpers/instrument.ts';
import {answers, firstReads, places, turnTo} from './stories.ts';

const prior = priorBelief(nines(), {nut: 'open', newness: 0});
const cameIn = [-12, -20, -31, 8, -15, -25];
const read = believe(prior, firstReads(cameIn));
const sdOf = (belief: typeof prior, index: number) => places(belief)[index]!.sd;

describe('readings', () => {
	test('a string stands where it was read, as well known as one reading can tell', () => {
		for (const [index, cents] of cameIn.entries()) {
			expect(places(read)[index]!.mean).toBeCloseTo(cents, 0);
			expect(sdOf(read, index)).toBeLessThan(0.8);
		}
	});

	test('strings not touched may be read in any order', () => {
		const other = believe(prior, [...firstReads(cameIn)].reverse());
		for (const [index, place] of places(read).entries()) {
			expect(places(other)[index]!.mean).toBeCloseTo(place!.mean, 1);
			expect(places(other)[index]!.sd).toBeCloseTo(place!.sd, 1);
		}
	});

	test('the same happenings give the same belief, so a story replayed without its last fact is that fact undone', () => {
		const story = [...firstReads(cameIn), ...turnTo(5, 20)];
		const longer = [...story, ...turnTo(2, 10)];
		const undone = believe(prior, longer.slice(0, story.length));
		expect(undone.mean).toEqual(believe(prior, story).mean);
		expect(undone.covariance.to2DArray()).toEqual(believe(prior, story).covariance.to2DArray());
	});

	test('re-plucking makes surer, but never surer than settling lets it be', () => {
		const again = believe(
			read,
			Array.from({length: 30}, () => ({kind: 'pitch', index: 2, cents: -31}) as const),
		);
		expect(sdOf(again, 2)).toBeLessThan(sdOf(read, 2));
		expect(sdOf(again, 2)).toBeGreaterThan(0.05);
	});

	test('one string that is far from all expectation does not move what is believed of the rest', () => {
		const turned = believe(read, [...turnTo(5, 20), ...firstReads([-12.4, -20.8, -32.2, 7.2, -16]).slice(0, 5)]);
		const odd = learn(turned, {kind: 'pitch', index: 2, cents: 60});
		expect(places(odd)[2]!.mean).toBeGreaterThan(40);
		for (const index of [0, 1, 3, 4, 5]) {
			expect(Math.abs(places(odd)[index]!.mean - places(turned)[index]!.mean)).toBeLessThan(1.5);
		}
		for (const [index, move] of answers(odd, 5, 30).entries()) {
			if (index !== 5) expect(move).toBeCloseTo(answers(turned, 5, 30)[index]!, 0);
		}
	});
});

describe('turns', () => {
	test('a string brought up lets the others down, a plain third most of all plain ones', () => {
		const moves = answers(read, 5, 0);
		for (const index of [0, 1, 2, 3, 4]) expect(moves[index]).toBeLessThan(0);
		expect(moves[2]).toBeLessThan(moves[1]!);
		expect(moves[1]).toBeLessThan(moves[0]!);
	});

	test('what one turn did to the others narrows what the next will do', () => {
		const forecast = (belief: typeof prior) => sdOf(believe(belief, turnTo(4, 150)), 2);
		const taught = believe(read, [...turnTo(5, 10), ...firstReads([-13.5, -23, -36, 4, -19]).slice(0, 5)]);
		expect(forecast(taught)).toBeLessThan(0.7 * forecast(read));
	});

	test('with a support in, the others stay', () => {
		const blocked = learn(read, {kind: 'support-in'});
		for (const [index, move] of answers(blocked, 5, 40).entries()) if (index !== 5) expect(move).toBeCloseTo(0, 6);
	});

	test('at a locked nut a string falls further for the same dip of the plate than at an open one over which wire slides', () => {
		const locked = {...read, nut: 'locked' as const};
		const dipped = (belief: typeof prior, index: number) => {
			const pose = poseOf(belief, belief.mean);
			const bridge = grippedAt(belief, belief.mean, pose.play, pose.angleRad);
			return centsOn(belief, bridge, index, pose.angleRad - 0.02)! - centsOn(belief, bridge, index, pose.angleRad)!;
		};
		for (const index of cameIn.keys()) expect(dipped(locked, index) / dipped(read, index)).toBeGreaterThan(1.05);
	});

	test('of a string turned and not heard only the others tell, through the bridge', () => {
		const unheard = believe(read, [
			{kind: 'turned', index: 4},
			{kind: 'pitch', index: 0, cents: -13},
		]);
		expect(sdOf(unheard, 4)).toBeGreaterThan(5);
		expect(sdOf(unheard, 0)).toBeLessThan(1);
	});
});

describe('a plate that came in on its stop', () => {
	test('strings that do not answer a turn at all tell so, and the bridge is not taken for a stiff one', () => {
		const flat = believe(prior, firstReads([-200, -200, -200, -200, -200, -200]));
		const still = believe(flat, [...turnTo(5, 150), ...firstReads([-200, -200, -200, -200, -200]).slice(0, 5)]);
		expect(still.isFromStop).toBe(true);
		expect(Math.abs(still.mean[still.layout.rate]!)).toBeLessThan(1);
	});
});

describe('memory', () => {
	const taught = believe(read, [...turnTo(5, 10), ...firstReads([-13.5, -23, -36, 4, -19]).slice(0, 5)]);
	const kept = learnedFrom(taught);
	const nothingNew = {newStrings: false, newSprings: false};

	test('is the prior of the next set-up: what a turn will do is known better before anything was turned', () => {
		const next = believe(recalled(prior, kept, nothingNew), firstReads(cameIn));
		const forecast = (belief: typeof prior) => sdOf(believe(belief, turnTo(4, 10)), 2);
		expect(forecast(next)).toBeLessThan(0.7 * forecast(read));
	});

	test('counts for less after other springs or strings', () => {
		const at = taught.layout.rate;
		const sd = (since: typeof nothingNew) => recalled(prior, kept, since).covariance.get(at, at);
		expect(sd({...nothingNew, newSprings: true})).toBeGreaterThan(sd(nothingNew));
		const mass = taught.layout.mass(4);
		const ofMass = (since: typeof nothingNew) => recalled(prior, kept, since).covariance.get(mass, mass);
		expect(ofMass({...nothingNew, newStrings: true})).toBeGreaterThan(ofMass(nothingNew));
	});

	test('of another number of strings, or of another shape, is no memory', () => {
		expect(recalled(prior, {...kept, strings: 7}, nothingNew)).toBe(prior);
		expect(recalled(prior, {...kept, mean: kept.mean.slice(1)}, nothingNew)).toBe(prior);
	});
});
