import {describe, expect, test} from 'vitest';
import type {StringNumber} from '../../source/music/string-number.ts';
import type {Deed} from '../../source/session/facts.ts';
import {finalCheck} from '../../source/stages/final-check/index.ts';
import {allInTune, benchWith, deedsOf, entered, keyOf, type Pinned, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const moved = (motion: 'dive' | 'pull-up' | 'bend'): Deed => ({type: 'ArmMoved', motion});
const all = (cents: (string: StringNumber) => number, how: 'open' | 'fretted' = 'open') =>
	six.map(string => read(string, cents(string), how));
const measured: Deed = {type: 'PlateMeasured', tailMm: 0.1, entered: '0.1'};

function bench(deeds: readonly Deed[], pinned: Pinned = {}) {
	return benchWith({tuning: allInTune, ...pinned, deeds: [opened, {type: 'NutClamped'}, ...deeds]});
}

const looked: readonly Deed[] = entered(finalCheck.task(bench([])));
const proved: readonly Deed[] = [...looked, ...all(() => 0), ...all(() => 0.5, 'fretted'), measured];

describe('before the arm', () => {
	test('what a hand has to tell comes first', () => {
		expect(finalCheck.task(bench([])).how).toHaveLength(4);
		expect(looked).toHaveLength(4);
		expect(typed(finalCheck, '7', bench([]))).toMatchObject({kind: 'refused'});
	});

	test('open strings, then fretted 12ths, then the plate', () => {
		expect(finalCheck.task(bench(looked)).headline).toMatch(/^Pluck string 1/);
		expect(finalCheck.task(bench([...looked, ...all(() => 0)])).headline).toMatch(/^Press string 1 .* 12th fret/);
		const fretted = bench([...looked, ...all(() => 0), ...all(() => 0, 'fretted')]);
		expect(finalCheck.task(fretted).practice).toEqual({kind: 'measure-plate'});
		expect(deedsOf(typed(finalCheck, '0.1', fretted))).toMatchObject([{type: 'PlateMeasured', tailMm: 0.1}]);
	});

	test('readings on one line go to all strings, open and fretted alike', () => {
		expect(deedsOf(typed(finalCheck, '0 0 1 -1 0 0.5', bench(looked)))).toHaveLength(6);
		const deeds = deedsOf(typed(finalCheck, '0 0 1 -1 0 0.5', bench([...looked, ...all(() => 0)])));
		expect(deeds[3]).toMatchObject({type: 'PitchRead', string: 4, how: 'fretted', cents: -1});
	});

	test('strings read before something was turned are read again', () => {
		const touched = bench([...looked, ...all(() => 0), {type: 'FineTunerTurned', string: 3}]);
		expect(finalCheck.task(touched).headline).toMatch(/^Pluck string 1/);
	});
});

describe('the arm', () => {
	test('dive, pull-up, bend, every string read after each', () => {
		let deeds = [...proved];
		const order: string[] = [];
		for (let step = 0; step < 6; step++) {
			const now = bench(deeds);
			const task = finalCheck.task(now);
			order.push(task.enter ? 'move' : 'read');
			deeds = [...deeds, ...(task.enter ? entered(task) : deedsOf(typed(finalCheck, '0 0 0 0 0 0', now)))];
		}
		expect(order).toEqual(['move', 'read', 'move', 'read', 'move', 'read']);
		expect(deeds.filter(({type}) => type === 'ArmMoved')).toEqual([moved('dive'), moved('pull-up'), moved('bend')]);
		expect(finalCheck.isDone(bench(deeds))).toBe(true);
		expect(finalCheck.task(bench(deeds)).why).toMatch(/After the bend: all strings came home/);
	});

	test('a single string that is off is named before the next movement', () => {
		const after = bench([...proved, moved('dive'), ...all(string => (string === 4 ? -9 : 0))]);
		expect(finalCheck.task(after).headline).toMatch(/Pull the arm up/);
		expect(finalCheck.task(after).how![0]).toMatch(/After the dive: only string 4 is off: it slips/);
	});

	test('cautions are said', () => {
		expect(finalCheck.task(bench(proved)).cautions!.join(' ')).toMatch(/eye protection/);
	});

	test('one key leaves a movement out', () => {
		const does = keyOf(finalCheck, 'x', bench(proved))!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		expect(finalCheck.task(bench([...proved, ...does.deeds])).headline).toMatch(/Pull the arm up/);
		expect(typed(finalCheck, 'later', bench(proved))).toMatchObject({kind: 'refused'});
	});

	test('what it left off is taken back with the fine tuners, then the stage is done', () => {
		const motions = (['dive', 'pull-up', 'bend'] as const).flatMap(motion => [moved(motion), ...all(() => 3)]);
		const off = bench([...proved, ...motions], {tuning: turn(2, -1)});
		expect(finalCheck.task(off).practice).toMatchObject({kind: 'turn', by: 'fine-tuner'});
		expect(finalCheck.isDone(off)).toBe(false);
		expect(entered(finalCheck.task(bench([...proved, ...motions])))).toEqual([
			{type: 'StagePassed', stage: 'final-check'},
		]);
	});

	test('what was turned at the end is read once more, for the sheet', () => {
		const motions = (['dive', 'pull-up', 'bend'] as const).flatMap(motion => [moved(motion), ...all(() => 3)]);
		const turned: Deed = {type: 'FineTunerTurned', string: 2, untilCents: -1};
		const deeds = [...proved, ...motions, turned, read(2, -1)];
		expect(finalCheck.task(bench(deeds)).headline).toMatch(/^Pluck string 1/);
		expect(finalCheck.isDone(bench([...deeds, ...all(() => 0)]))).toBe(true);
	});

	test('clamped again, everything is proved again', () => {
		const again = bench([...proved, moved('dive'), opened, {type: 'NutClamped'}]);
		expect(finalCheck.task(again).headline).toMatch(/^Pluck string 1/);
	});
});
