import {render} from 'ink-testing-library';
import {describe, expect, test} from 'vitest';
import type {Deed} from '../../source/session/facts.ts';
import {balance} from '../../source/stages/balance/index.ts';
import {Panel} from '../../source/stages/balance/panel.tsx';
import {scaleFor} from '../../source/stages/balance/side-view.ts';
import {allInTune, benchWith, deedsOf, entered, keyOf, toRead, turn, typed} from '../helpers/bench.ts';
import {opened} from '../helpers/deeds.ts';

const measured = (tailMm: number): Deed => ({type: 'PlateMeasured', tailMm, entered: String(tailMm)});
const clawed: Deed = {type: 'ClawTurned', trebleTurns: 0.5, bassTurns: 0.5};
const needs = (turns: number, tailMm: number) => ({
	clawTurns: {mean: turns, sd: 0.1},
	tailAtPitchMm: {mean: tailMm, sd: 0.2},
	springForceN: 40,
});

describe('first the plate is measured', () => {
	const bench = benchWith({deeds: [opened], tuning: allInTune});

	test('how to measure is explained', () => {
		const task = balance.task(bench);
		expect(task.headline).toMatch(/Measure how high the tail edge/);
		expect(task.how!.join(' ')).toMatch(/30 mm behind the knife edge/);
		expect(task.practice).toEqual({kind: 'measure-plate'});
	});

	test.each([
		['0.8', 0.8],
		['-0.5', -0.5],
		['0.5 low', -0.5],
		['level', 0],
		['0.05 in', 1.27],
		// tail arm 30 mm: 30 sin 1.5° = 0.785 mm
		['1.5 deg', 0.785],
		['7.2 / 8.0', 0.8],
		['8,0 ; 7,2', -0.8],
	])('%s is a tail height', (text, tailMm) => {
		expect(deedsOf(typed(balance, text, bench))).toMatchObject([
			{type: 'PlateMeasured', tailMm: expect.closeTo(tailMm, 3), entered: text},
		]);
	});

	test.each(['', 'high', '300', 'x / 8', '7.2 / y', '95 deg'])('%s is refused', text => {
		expect(typed(balance, text, bench)).toMatchObject({kind: 'refused'});
	});

	test('a height that bridges hardly have is asked about', () => {
		expect(typed(balance, '12', bench)).toMatchObject({
			kind: 'question',
			deedsIfMeant: [{type: 'PlateMeasured', tailMm: 12}],
		});
	});
});

describe('then the claw', () => {
	const bench = benchWith({deeds: [opened, measured(1.4)], tuning: allInTune, plate: needs(0.6, 1.4)});

	test('turns are said in eighths, with the way and what follows', () => {
		const task = balance.task(bench);
		expect(task.headline).toBe('Turn both claw screws 5/8 turn tighter.');
		expect(task.why).toMatch(/tail ends 1\.40 mm high at pitch: more spring pull/);
		expect(task.act).toEqual({kind: 'claw', turns: 0.625});
		expect(entered(task)).toEqual([{type: 'ClawTurned', trebleTurns: 0.625, bassTurns: 0.625}]);
	});

	test('a low tail is let up', () => {
		const low = benchWith({deeds: [opened, measured(-1)], tuning: allInTune, plate: needs(-0.5, -1)});
		expect(balance.task(low).headline).toBe('Turn both claw screws 1/2 turn looser.');
		expect(balance.task(low).why).toMatch(/less spring pull/);
	});

	test.each([
		['3/8', 0.375, 0.375],
		['1/2 looser', -0.5, -0.5],
		['treble 1/2 bass 1/4', 0.5, 0.25],
	])('%s turned instead is what is stored', (text, trebleTurns, bassTurns) => {
		expect(deedsOf(typed(balance, text, bench))).toEqual([{type: 'ClawTurned', trebleTurns, bassTurns}]);
	});

	test('less than half an eighth is not asked for', () => {
		const near = benchWith({deeds: [opened, measured(0.4)], tuning: allInTune, plate: needs(0.05, 0.4)});
		expect(balance.isDone(near)).toBe(true);
		expect(balance.task(near).why).toMatch(/As near as an eighth/);
	});

	test('the owner’s wish is the target, not level', () => {
		const wished = benchWith({
			sheet: {plateWishMm: 1.4},
			deeds: [opened, measured(1.4)],
			tuning: allInTune,
			plate: needs(0.4, 1.4),
		});
		expect(balance.isDone(wished)).toBe(true);
	});
});

describe('then one guided pass and the proof', () => {
	test('the same guided pass as in tuning', () => {
		const bench = benchWith({deeds: [opened, measured(1.4), clawed], tuning: turn(6, 12), plate: needs(0.4, 1)});
		expect(balance.task(bench).headline).toMatch(/^Turn string 6/);
		expect(deedsOf(typed(balance, '+12', bench))[0]).toMatchObject({type: 'PegTurned', string: 6});
		expect(keyOf(balance, 't', bench)).toBeDefined();
	});

	test('a plan that changes its mind about the claw on the way does not stop the pass', () => {
		const bench = benchWith({deeds: [opened, measured(1.4), clawed], tuning: toRead(2), plate: needs(-1, -2)});
		expect(balance.task(bench).headline).toMatch(/^Pluck string 2/);
	});

	test('measured again when all is at pitch', () => {
		const bench = benchWith({deeds: [opened, measured(1.4), clawed], tuning: allInTune});
		expect(balance.task(bench).headline).toMatch(/Measure the tail edge again/);
	});

	test('within 0.3 mm it is done, beyond it there is a second, smaller step', () => {
		const good = benchWith({deeds: [opened, measured(1.4), clawed, measured(0.2)], tuning: allInTune});
		expect(balance.isDone(good)).toBe(true);
		expect(entered(balance.task(good))).toEqual([{type: 'StagePassed', stage: 'balance'}]);
		const off = benchWith({
			deeds: [opened, measured(1.4), clawed, measured(0.6)],
			tuning: allInTune,
			plate: needs(0.3, 0.6),
		});
		expect(balance.task(off).headline).toBe('Turn both claw screws 1/4 turn tighter.');
	});

	test('one key measures again at any time', () => {
		const deeds = [opened, measured(1.4)];
		const bench = benchWith({deeds, tuning: allInTune, plate: needs(0.6, 1.4)});
		const does = keyOf(balance, 'm', bench)!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		expect(balance.task(benchWith({deeds: [...deeds, ...does.deeds], plate: needs(0.6, 1.4)})).practice).toEqual({
			kind: 'measure-plate',
		});
	});
});

describe('when turns are not enough', () => {
	const bench = benchWith({deeds: [opened, measured(6)], tuning: allInTune, plate: needs(8, 6)});

	test('another spring is advised, strings slack first, with the numbers', () => {
		const task = balance.task(bench);
		expect(task.headline).toBe('Slacken the strings, then add a spring: 4 in all.');
		expect(task.why).toBe('The claw alone would need 8 turns tighter, each spring pulling 40.0 N.');
		expect(task.cautions!.join(' ')).toMatch(/jump/);
		const types = entered(task).map(({type}) => type);
		expect(types.filter(type => type === 'StringSlackened')).toHaveLength(6);
		expect(types.at(-1)).toBe('SpringsChanged');
	});

	test('springs drawn beyond their range ask for one more, idle ones for one fewer', () => {
		const plate = {...needs(0.5, 1), springForceN: 120};
		expect(balance.task(benchWith({deeds: [opened, measured(1)], tuning: allInTune, plate})).headline).toMatch(
			/add a spring/,
		);
		const idle = {...needs(0.5, 1), springForceN: 5};
		expect(balance.task(benchWith({deeds: [opened, measured(1)], tuning: allInTune, plate: idle})).headline).toMatch(
			/take a spring off: 2 left/,
		);
	});

	test('another number is stored as fitted; what is no number is refused', () => {
		expect(deedsOf(typed(balance, '5', bench)).at(-1)).toEqual({type: 'SpringsChanged', springs: 5});
		expect(typed(balance, '9', bench)).toMatchObject({kind: 'refused'});
	});

	test('one key stays with the claw', () => {
		const does = keyOf(balance, 'j', bench)!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		const after = benchWith({deeds: [opened, measured(6), ...does.deeds], tuning: allInTune, plate: needs(8, 6)});
		expect(balance.task(after).headline).toMatch(/claw screws 8 turns tighter/);
	});
});

test('an intonation job leaves the balance alone', () => {
	expect(balance.isNeeded(benchWith({sheet: {job: 'intonation'}}))).toBe(false);
});

describe('the picture', () => {
	const frame = (tailMm: number, width = 60, height = 11) =>
		render(
			<Panel
				bench={benchWith({plate: {tailMm: {mean: tailMm, sd: 0.1}, tailAtPitchMm: {mean: 0.2, sd: 0.2}}})}
				width={width}
				height={height}
			/>,
		).lastFrame()!;

	test('the plate rises to the tail when the tail is high, falls when it is low', () => {
		// The row, of seven, in which the plate reaches the tail.
		const last = (tailMm: number) =>
			frame(tailMm)
				.split('\n')
				.slice(1, 8)
				.findIndex(row => row.lastIndexOf('#') >= 57);
		expect(last(1.2)).toBeLessThan(3);
		expect(last(0)).toBe(3);
		expect(last(-1.2)).toBeGreaterThan(3);
	});

	test('says what is drawn in numbers', () => {
		expect(frame(1.2)).toContain('now +1.20 ±0.16 mm   at pitch +0.20 ±0.33 mm');
		expect(frame(1.2)).toContain('wanted level');
	});

	test.each([40, 60, 100])('stays within %i columns', width => {
		expect(
			Math.max(
				...frame(3, width)
					.split('\n')
					.map(line => line.length),
			),
		).toBeLessThanOrEqual(width);
	});

	test('takes the finest scale that still shows the tail', () => {
		expect(scaleFor([0.2, 0], 7)).toBe(0.25);
		expect(scaleFor([3, 0], 7)).toBe(1);
		expect(scaleFor([90, 0], 7)).toBe(4);
	});
});
