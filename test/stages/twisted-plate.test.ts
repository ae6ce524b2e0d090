import {describe, expect, test} from 'vitest';
import {stringsOf} from '../../source/music/string-number.ts';
import type {Deed} from '../../source/session/facts.ts';
import {balance} from '../../source/stages/balance/index.ts';
import {benchWith, deedsOf, entered, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

/** A set-up that goes on from what is typed, nothing pinned down. */
function followed(deeds: readonly Deed[], ...lines: readonly string[]): readonly Deed[] {
	const all = [...deeds];
	for (const line of lines) {
		const bench = benchWith({deeds: all});
		all.push(...(line === '' ? entered(balance.task(bench)) : deedsOf(typed(balance, line, bench, true))));
	}

	return all;
}

const taskAfter = (deeds: readonly Deed[]) => balance.task(benchWith({deeds}));
const inTune = stringsOf(6).map(string => read(string, 0));
/** All brought to pitch by their pegs, then heard once more each. */
const tuned = [...stringsOf(6).flatMap((string): Deed[] => [{type: 'PegTurned', string}, read(string, 0)]), ...inTune];

describe('a twisted plate', () => {
	// No ruler for the springs' arm.
	const came = followed([opened, ...inTune], 'treble 1.5 bass 0.9', '', 'treble 1.5 bass 0.9');

	test('given both sides were measured, the higher side gets more, in eighths, and it is said which', () => {
		const {headline, act} = taskAfter(came);
		expect(headline).toMatch(/^Turn the treble claw screw .* tighter, the bass one .*\.$/);
		const [deed] = entered(taskAfter(came));
		if (deed?.type !== 'ClawTurned') throw new Error('expected claw turns');
		expect(deed.trebleTurns).toBeGreaterThan(deed.bassTurns);
		expect(deed.trebleTurns - deed.bassTurns).toBeLessThanOrEqual(0.5);
		for (const turns of [deed.trebleTurns, deed.bassTurns]) expect(turns * 8).toBe(Math.round(turns * 8));
		expect(act).toEqual({kind: 'claw', turns: (deed.trebleTurns + deed.bassTurns) / 2});
	});

	test('when it answers, what is left of the twist is turned out and then the screws are alike', () => {
		const turned = followed(came, '');
		const half = followed([...turned, ...tuned], 'treble 0.3 bass 0.0');
		const {bySide} = benchWith({deeds: half}).plate;
		expect(bySide.twist).toBe('unequal');
		const gone = followed([...turned, ...tuned], 'treble 0.05 bass 0.0');
		expect(benchWith({deeds: gone}).plate.bySide.twist).toBe('alike');
	});

	test('when it does not answer, posts, knife edges and plate are to be looked at, and the screws set alike again', () => {
		const once = followed([...followed(came, ''), ...tuned], 'treble 0.6 bass 0.0', 'treble 0.6 bass 0.0');
		// A quarter turn of difference tells nothing yet: more of it is tried, with a way to do it that fits.
		expect(taskAfter(once).how![0]).toMatch(/^An eighth at a time, first one screw, then the other/);
		const twice = followed(once, '');
		const turned = twice.flatMap(deed => (deed.type === 'ClawTurned' ? [deed.trebleTurns - deed.bassTurns] : []));
		let stays = [...twice, ...tuned];
		for (let measures = 0; taskAfter(stays).practice?.kind === 'measure-plate'; measures++) {
			expect(measures, taskAfter(stays).headline).toBeLessThan(6);
			stays = [...followed(stays, 'treble 0.9 bass 0.3')];
		}

		const task = taskAfter(stays);
		expect(task.how![0]).toBe(
			'The twist does not answer to the claw: look at posts, knife edges and the plate itself.',
		);
		const [back] = entered(task);
		if (back?.type !== 'ClawTurned') throw new Error('expected claw turns');
		expect(back.trebleTurns - back.bassTurns).toBeCloseTo(-turned.reduce((sum, each) => sum + each, 0), 0);
		expect(back.trebleTurns).toBeLessThan(back.bassTurns);
	});

	test('is not done while it is twisted and answers, though the mean of both sides is level', () => {
		const level = followed([opened, ...inTune], 'treble 0.4 bass -0.4');
		expect(taskAfter(level).headline).toMatch(/^Turn the treble claw screw .* tighter, the bass one .* looser\.$/);
	});

	test('that is none of the claw’s doing does not hold the work up, and is said at the end', () => {
		const apart: Deed = {type: 'ClawTurned', trebleTurns: 0.25, bassTurns: -0.25};
		const stays = followed([opened, ...inTune], 'treble 0.4 bass -0.4');
		const alike: Deed = {type: 'ClawTurned', trebleTurns: -0.25, bassTurns: 0.25};
		const told = followed([...stays, apart, ...tuned], 'treble 0.4 bass -0.4');
		for (const deeds of [told, followed([...told, alike, ...tuned], 'treble 0.4 bass -0.4')]) {
			const bench = benchWith({deeds, plate: {verdict: 'stands'}});
			expect(bench.plate.bySide.twist).toBe('not-the-claw');
			expect(balance.isDone(bench)).toBe(true);
			expect(balance.task(bench).how![0]).toMatch(/^The twist does not answer to the claw/);
		}
	});
});
