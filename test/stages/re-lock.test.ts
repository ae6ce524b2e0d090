import {describe, expect, test} from 'vitest';
import type {Deed} from '../../source/session/facts.ts';
import {relock} from '../../source/stages/re-lock/index.ts';
import {allInTune, benchWith, deedsOf, entered, keyOf, type Pinned, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const clamped: Deed = {type: 'NutClamped'};

function bench(deeds: readonly Deed[], pinned: Pinned = {}) {
	return benchWith({tuning: allInTune, ...pinned, deeds: [opened, ...deeds]});
}

/** Facts that bring the list to its end. */
const ready: readonly Deed[] = entered(relock.task(bench([])));

describe('before the clamps', () => {
	test('strings that are not at pitch are tuned first', () => {
		expect(relock.task(bench([], {tuning: turn(3, 4)})).headline).toMatch(/^Turn string 3/);
	});

	test('the list says what is seen by itself and why', () => {
		const how = relock.task(bench([])).how!;
		expect(how[0]).toBe('[x] 1 open strings at pitch: worst is string 3 (G3) at +0.4 ±0.5 cents');
		expect(how[1]).toBe('[x] 2 strings stretched in: no string is new');
		expect(how[3]).toBe('[ ] 4 fine tuners near the middle of their travel');
	});

	test('new strings that nobody pulled are named', () => {
		const fitted: Deed[] = [
			{type: 'StringRemoved', string: 2},
			{type: 'StringFitted', string: 2},
		];
		expect(relock.task(bench(fitted)).how![1]).toBe('[ ] 2 strings stretched in; new and not said to be pulled: 2');
		const pulled = bench([...fitted, {type: 'StringStretched', string: 2}]);
		expect(relock.task(pulled).how![1]).toBe('[x] 2 strings stretched in: every new string was pulled and retuned');
	});

	test('the plate counts as seen when it was measured and stands as wished', () => {
		const plate = {tailMm: {mean: 0.2, sd: 0.1}};
		const measured: Deed = {type: 'PlateMeasured', tailMm: 0.2, entered: '0.2'};
		expect(relock.task(bench([measured], {plate})).how![2]).toBe(
			'[x] 3 plate stands as wished: tail 0.20 mm high, wanted level',
		);
		expect(relock.task(bench([], {plate})).how![2]).toBe('[ ] 3 plate stands as wished');
	});

	test('what the program sees cannot be ticked by hand', () => {
		expect(typed(relock, '1', bench([]))).toMatchObject({kind: 'refused'});
		expect(deedsOf(typed(relock, '4', bench([])))).toMatchObject([{type: 'ItemTicked', done: true}]);
	});

	test('when all is ticked the clamps go on, with a forecast', () => {
		const task = relock.task(bench(ready));
		expect(task.headline).toMatch(/Tighten the clamp blocks/);
		expect(task.act).toEqual({kind: 'clamp'});
		expect(entered(task)).toEqual([clamped]);
		expect(typed(relock, '-3', bench(ready))).toMatchObject({kind: 'refused'});
	});
});

describe('after the clamps', () => {
	const locked = [...ready, clamped];

	test('every string is read once before anything is corrected', () => {
		const task = relock.task(bench(locked, {tuning: turn(1, -3)}));
		expect(task.headline).toBe('Pluck string 1 (E4), do not turn it.');
		expect(task.how![0]).toBe('All at once: 6 readings on one line, string 1 first.');
		expect(relock.task(bench([...locked, read(1, 4)], {tuning: turn(1, -3)})).string).toBe(2);
	});

	test('all on one line, thinnest first', () => {
		const deeds = deedsOf(typed(relock, '+4 +3 -2 0 +5 +1', bench(locked)));
		expect(deeds).toMatchObject(
			[4, 3, -2, 0, 5, 1].map((cents, index) => ({type: 'PitchRead', string: index + 1, how: 'open', cents})),
		);
	});

	test('one of them that cannot be is named, and nothing of the line is taken', () => {
		expect(typed(relock, '+4 +3 x 0 +5 +1', bench(locked))).toMatchObject({
			kind: 'refused',
			said: expect.stringMatching(/^At string 3 \(G3\): Read “x”/),
		});
		const odd = typed(relock, '+4 +3 -1200 0 +5 +1', bench(locked));
		expect(odd).toMatchObject({kind: 'question', said: expect.stringMatching(/^At string 3/)});
		expect(deedsOf(typed(relock, '+4 +3 -1200 0 +5 +1', bench(locked), true))).toHaveLength(6);
	});

	test('then the fine tuners alone correct', () => {
		const bothRead = bench([...locked, ...six.map(string => read(string, 4))], {tuning: turn(1, -3)});
		const task = relock.task(bothRead);
		expect(task.practice).toMatchObject({kind: 'turn', by: 'fine-tuner'});
		expect(deedsOf(typed(relock, '-3', bothRead))[0]).toEqual({type: 'FineTunerTurned', string: 1, untilCents: -3});
	});

	test('a fine tuner at its end opens the clamps again, after a question', () => {
		expect(keyOf(relock, 'k', bench(locked))?.does).toMatchObject({deeds: [opened], ask: expect.any(String)});
		expect(keyOf(relock, 'k', bench([]))).toBeUndefined();
	});

	test('clamped again, all are read again', () => {
		const again = bench([...locked, ...six.map(string => read(string, 4)), opened, clamped]);
		expect(relock.task(again).headline).toMatch(/^Pluck string 1/);
	});

	test('one that the plan leaves off can be turned once more', () => {
		const deeds = [...locked, ...six.map(string => read(string, 0))];
		const pinned: Pinned = {
			tuning: {kind: 'done', worst: {string: 3, error: {mean: -2.2, sd: 0.2}}, probability: 0.01},
			rows: {3: {aim: {mean: 0.5, sd: 0.2}}},
		};
		expect(relock.task(bench(deeds, pinned)).headline).toMatch(/as near as the plan brings it/);
		const taken = deedsOf(typed(relock, '3:', bench(deeds, pinned)));
		expect(relock.task(bench([...deeds, ...taken], pinned)).practice).toMatchObject({kind: 'turn', string: 3});
	});

	test('locked, read and in tune, it is done', () => {
		const all = bench([...locked, ...six.map(string => read(string, 0))]);
		expect(relock.isDone(all)).toBe(true);
		expect(entered(relock.task(all))).toEqual([{type: 'StagePassed', stage: 're-lock'}]);
	});
});

describe('a fine tuner that cannot reach', () => {
	const locked = [...ready, clamped, ...six.map(string => read(string, string === 3 ? 60 : 0))];
	/** String 3 next, sixty cents to go, ten left. */
	const stuck = (deeds: readonly Deed[] = []) => {
		const own = bench([...locked, ...deeds], {tuning: turn(3, 0)});
		const {strings, ...rest} = own.locking();
		const reach = {flat: {mean: 10, sd: 2}, sharp: {mean: 90, sd: 9}};
		const out = strings.map(row =>
			row.string === 3 ? {...row, isOutOfReach: true, neededCents: -60, pair: [3, 4] as const, reach} : row,
		);
		return {...own, locking: () => ({...rest, strings: out})};
	};

	test('unlocking is a task of its own, with what is needed and what is left', () => {
		const task = relock.task(stuck());
		expect(task.headline).toMatch(/^Unlock string 3.*pair 3 and 4|^Unlock string 3.*pair 3, 4/);
		expect(task.why).toBe('It needs −60.0 cents and its fine tuner has about 10 left; the peg brings it home.');
		expect(entered(task)).toEqual([opened, {type: 'FineTunersCentred'}]);
	});

	test('it leads through pegs and clamps once more', () => {
		const unlocked: readonly Deed[] = [...locked, ...entered(relock.task(stuck()))];
		expect(relock.task(bench(unlocked, {tuning: turn(3, 0)})).practice).toMatchObject({by: 'peg'});
		// What was looked at before the first clamping still holds; the tuners were set to the middle just now.
		expect(entered(relock.task(bench(unlocked)))).toEqual([clamped]);
	});

	test('the person may try the fine tuner all the same', () => {
		const key = keyOf(relock, 'j', stuck())!;
		const tried = stuck(key.does.kind === 'deeds' ? key.does.deeds : []);
		expect(relock.task(tried).practice).toMatchObject({by: 'fine-tuner', string: 3});
	});
});
