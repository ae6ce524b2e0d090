import {render} from 'ink-testing-library';
import {describe, expect, test} from 'vitest';
import type {PlateRow} from '../../source/session/bench.ts';
import type {ForecastCompared} from '../../source/session/set-change-compared.ts';
import type {Deed} from '../../source/session/facts.ts';
import {balance} from '../../source/stages/balance/index.ts';
import {Panel} from '../../source/stages/balance/panel.tsx';
import {scaleFor} from '../../source/stages/balance/side-view.ts';
import {allInTune, benchWith, deedsOf, entered, keyOf, toRead, turn, typed} from '../helpers/bench.ts';
import {opened} from '../helpers/deeds.ts';

const measured = (tailMm: number): Deed => ({type: 'PlateMeasured', tailMm, entered: String(tailMm)});
/** Somebody who leaves the bridge floating, asked before the first bold turn. */
const floating: Deed = {type: 'WayChosen', choice: 'tuning', value: 'floating'};
const clawed: Deed = {type: 'ClawTurned', trebleTurns: 0.5, bassTurns: 0.5};
const outlook = (turns: number, forceN = 40, springs = 3) => ({springs, forceN, turns});

/** A plate off by this much, that so many turns would bring home. */
function needs(turns: number, tailMm: number, more: Partial<PlateRow> = {}): Partial<PlateRow> {
	const eighths = Math.round(8 * turns) / 8;
	return {
		clawTurns: {mean: turns, sd: 0.1},
		tailAtPitchMm: {mean: tailMm, sd: 0.2},
		springForceN: 40,
		bySide: {trebleTurns: eighths, bassTurns: eighths, twist: 'alike', twistM: 0},
		springs: {kind: 'turns-will-do', outlook: outlook(turns)},
		verdict: 'off',
		isTurnWorth: true,
		isArmWanted: false,
		isSecondLookDue: false,
		...more,
	};
}

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

	test.each([
		['treble 0.8 bass 0.4', 0.6, 0.8, 0.4],
		['bass -0.5, treble 0.5 high', 0, 0.5, -0.5],
	])('%s is both sides', (text, tailMm, treble, bass) => {
		expect(deedsOf(typed(balance, text, bench))).toEqual([
			{type: 'PlateMeasured', tailMm: expect.closeTo(tailMm, 9), sidesMm: {treble, bass}, entered: text},
		]);
	});

	test.each(['treble 0.8 treble 0.4', 'treble x bass 0.4', 'treble 0.8 bass y'])('%s is refused', text => {
		expect(typed(balance, text, bench)).toMatchObject({kind: 'refused'});
	});

	test('a side that bridges hardly reach is asked about, with both sides kept', () => {
		expect(typed(balance, 'treble 12 bass 0.4', bench)).toMatchObject({
			kind: 'question',
			deedsIfMeant: [{sidesMm: {treble: 12, bass: 0.4}}],
		});
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
	const bench = benchWith({deeds: [opened, floating, measured(1.4)], tuning: allInTune, plate: needs(0.6, 1.4)});

	test('turns are said in eighths, with the way and what follows', () => {
		const task = balance.task(bench);
		expect(task.headline).toBe('Turn both claw screws 5/8 turn tighter.');
		expect(task.why).toBe('Left as it is the tail ends 1.40 mm high at pitch; wanted is level.');
		expect(task.act).toEqual({kind: 'claw', turns: 0.625});
		expect(entered(task)).toEqual([{type: 'ClawTurned', trebleTurns: 0.625, bassTurns: 0.625}]);
	});

	test('a bold turn is reckoned from two measures, and the person is told why', () => {
		const deeds = [opened, floating, measured(1.4)];
		const bold = benchWith({deeds, tuning: allInTune, plate: needs(0.6, 1.4, {isSecondLookDue: true})});
		expect(balance.task(bold).headline).toMatch(/a second time/);
		expect(balance.task(bold).why).toMatch(/claw turns are reckoned from them/);
		// What is no claw turn is not put off.
		const good = benchWith({
			deeds,
			tuning: allInTune,
			plate: needs(0.1, 0.1, {verdict: 'stands', isSecondLookDue: true}),
		});
		expect(balance.isDone(good)).toBe(true);
	});

	test('before a bold turn on a bridge never seen the arm of the springs is asked for, and can be left out', () => {
		const deeds = [opened, floating, measured(1.4)];
		const plate = needs(0.6, 1.4, {isArmWanted: true});
		const unmeasured = benchWith({deeds, tuning: allInTune, plate});
		const task = balance.task(unmeasured);
		expect(task.headline).toMatch(/knife edges down to the spring hooks/);
		expect(deedsOf(typed(balance, '38', unmeasured))).toMatchObject([{type: 'SheetFilled', sheet: {springArmMm: 38}}]);
		expect(typed(balance, '380', unmeasured)).toMatchObject({kind: 'refused'});
		const without = [...deeds, ...entered(task)];
		expect(balance.task(benchWith({deeds: without, tuning: allInTune, plate})).headline).toMatch(/^Turn both/);
	});

	test('a turn that makes the plate no surer is not made', () => {
		const deeds = [opened, floating, measured(0.2)];
		const sure = benchWith({deeds, tuning: turn(6, 12), plate: needs(0.1, 0.2, {isTurnWorth: false})});
		expect(balance.task(sure).headline).toMatch(/^Turn string 6/);
	});

	test('what was measured before the nut was opened is how it came in, not how it stands', () => {
		const bench = benchWith({deeds: [measured(0.1), opened], tuning: allInTune, plate: needs(0.1, 0.1)});
		expect(balance.task(bench).headline).toMatch(/^Measure how high the tail edge/);
	});

	test('a low tail is let up', () => {
		const low = benchWith({deeds: [opened, floating, measured(-1)], tuning: allInTune, plate: needs(-0.5, -1)});
		expect(balance.task(low).headline).toBe('Turn both claw screws 1/2 turn looser.');
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
		expect(balance.task(near).headline).toMatch(/as near as can be had/);
	});

	test('a twisted plate gets unequal turns, one that does not answer is said to be none of the claw’s', () => {
		const bySide = {trebleTurns: 0.75, bassTurns: 0.5, twist: 'unequal', twistM: 0.0008} as const;
		const twisted = benchWith({
			deeds: [opened, floating, measured(1)],
			tuning: allInTune,
			plate: needs(0.6, 1, {bySide}),
		});
		const task = balance.task(twisted);
		expect(task.headline).toBe('Turn the treble claw screw 3/4 turn tighter, the bass one 1/2 turn tighter.');
		expect(entered(task)).toEqual([{type: 'ClawTurned', trebleTurns: 0.75, bassTurns: 0.5}]);
		const bent = needs(0.6, 1, {bySide: {...bySide, twist: 'not-the-claw'}});
		expect(
			balance.task(benchWith({deeds: [opened, floating, measured(1)], tuning: allInTune, plate: bent})).how![0],
		).toMatch(/does not answer to the claw/);
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

	test('looked at on the way after a bold turn, so that the claw is trimmed in the same pass', () => {
		const deeds = [opened, measured(1.4), clawed];
		const due = benchWith({deeds, tuning: turn(6, 12), plate: {isLookDue: true}});
		expect(balance.task(due).headline).toMatch(/^Measure the tail edge now/);
		expect(balance.task(due).practice).toEqual({kind: 'measure-plate'});
		const notYet = benchWith({deeds, tuning: turn(6, 12), plate: {isLookDue: false}});
		expect(balance.task(notYet).headline).toMatch(/^Turn string 6/);
	});

	test('measured again when all is at pitch', () => {
		const bench = benchWith({deeds: [opened, measured(1.4), clawed], tuning: allInTune});
		expect(balance.task(bench).headline).toMatch(/Measure the tail edge again/);
	});

	test('standing as wished it is done, off there is a second, smaller step', () => {
		const deeds = [opened, measured(1.4), clawed, measured(0.2)];
		const good = benchWith({deeds, tuning: allInTune, plate: needs(0.1, 0.2, {verdict: 'stands'})});
		expect(balance.isDone(good)).toBe(true);
		expect(balance.task(good).why).toBe('Tail 0.20 mm high, wanted level.');
		expect(entered(balance.task(good))).toEqual([{type: 'StagePassed', stage: 'balance'}]);
		const off = benchWith({deeds, tuning: allInTune, plate: needs(0.3, 0.6)});
		expect(balance.task(off).headline).toBe('Turn both claw screws 1/4 turn tighter.');
	});

	test('near the edge of good enough it is measured again rather than turned', () => {
		const deeds = [opened, measured(1.4), clawed, measured(0.3)];
		const edge = benchWith({deeds, tuning: allInTune, plate: needs(0.2, 0.3, {verdict: 'measure-again'})});
		expect(balance.task(edge).headline).toMatch(/once more/);
	});

	test('what the arm reaches is said at the end', () => {
		const arm = (pullUpCents: number, diveCents: number | undefined) => ({arm: {pullUpCents, diveCents}});
		const bench = benchWith({
			deeds: [opened, measured(0)],
			tuning: allInTune,
			plate: needs(0, 0, {verdict: 'stands'}),
			rows: {
				1: arm(60, -400),
				2: arm(90, -500),
				3: arm(150, undefined),
				4: arm(90, -500),
				5: arm(90, -500),
				6: arm(120, undefined),
			},
		});
		expect(balance.task(bench).how).toEqual([
			'Arm pulled up / pushed down to where the plate stops, cents by string: 1: +60 / −400, 2: +90 / −500, 3: +150 / slack, 4: +90 / −500, 5: +90 / −500, 6: +120 / slack.',
		]);
	});

	test('after a change, what was foreseen stands beside what came true', () => {
		const compared: ForecastCompared = {
			rows: [
				{
					what: 'claw-turns',
					unit: 'turns',
					foreseen: {mean: 1.5, sd: 0.3},
					came: {mean: 3, sd: 0.1},
					agrees: false,
				},
			],
			springsForeseen: 3,
			springsFitted: 4,
		};
		const bench = benchWith({
			deeds: [opened, measured(0)],
			tuning: allInTune,
			plate: needs(0, 0, {verdict: 'stands'}),
			bench: {changeCompared: () => compared},
		});
		expect(balance.task(bench).how!.slice(0, 2)).toEqual([
			'claw turns: foreseen 1 1/2 turns tighter, give or take 1/2; came 3 turns tighter (otherwise)',
			'springs: foreseen 3 springs; came 4 springs (otherwise)',
		]);
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
	const now = outlook(8, 95);
	const advice = (springs: PlateRow['springs']) =>
		benchWith({deeds: [opened, measured(6)], tuning: allInTune, plate: needs(8, 6, {springs})});
	const add = advice({kind: 'add', count: 1, trouble: 'over-drawn', now, outlook: outlook(0.5, 71, 4)});

	test('another spring is advised, strings slack first, with the numbers', () => {
		const task = balance.task(add);
		expect(task.headline).toBe('Slacken the strings, then add a spring: 4 in all.');
		expect(task.why).toBe(
			'By turns alone the springs would be drawn too far: 8 turns tighter, each spring pulling 95.0 N.',
		);
		expect(task.how![0]).toBe('With that done: 1/2 turn tighter, each spring pulling 71.0 N.');
		expect(task.cautions!.join(' ')).toMatch(/jump/);
		const types = entered(task).map(({type}) => type);
		expect(types.filter(type => type === 'StringSlackened')).toHaveLength(6);
		expect(entered(task).at(-1)).toEqual({type: 'SpringsChanged', springs: 4});
	});

	test('or fewer springs, another hook, other springs', () => {
		const trouble = 'claw-home';
		const like = {trouble, now, outlook: outlook(0.5)} as const;
		const headlines = [
			advice({kind: 'remove', count: 2, ...like, outlook: outlook(0.5, 60, 1)}),
			advice({kind: 're-hook', way: 'tighter', ...like}),
			advice({kind: 'exchange', way: 'stiffer', ratio: 1.3, ...like}),
		].map(bench => balance.task(bench).headline);
		expect(headlines[0]).toBe('Slacken the strings, then take 2 springs off: 1 left.');
		expect(headlines[1]).toMatch(/hook the springs one place further out/);
		expect(headlines[2]).toMatch(/put stiffer springs in/);
		expect(balance.task(advice({kind: 'exchange', way: 'stiffer', ratio: 1.3, ...like})).how![0]).toMatch(/130 %/);
	});

	test('another number is stored as fitted; what is no number is refused', () => {
		expect(deedsOf(typed(balance, '5', add)).at(-1)).toEqual({type: 'SpringsChanged', springs: 5});
		expect(typed(balance, '9', add)).toMatchObject({kind: 'refused'});
	});

	test('one key stays with the claw', () => {
		const does = keyOf(balance, 'j', add)!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		const springs = {kind: 'add', count: 1, trouble: 'over-drawn', now, outlook: outlook(0.5, 71, 4)} as const;
		const deeds = [opened, measured(6), ...does.deeds];
		const after = benchWith({deeds, tuning: allInTune, plate: needs(8, 6, {springs})});
		expect(balance.task(after).headline).toMatch(/claw screws 8 turns tighter/);
	});

	test('what cannot be had is said plainly, with what can', () => {
		const atEnd = (turns: number) =>
			advice({kind: 'cannot', trouble: 'claw-home', now, atEnd: {turns, tailOffM: 0.0015}, pullShare: -0.12});
		const task = balance.task(atEnd(2.3));
		expect(task.headline).toBe('Turn both claw screws 2 1/4 turns tighter: that is as far as they go.');
		expect(task.why).toMatch(/cannot both be had with what is fitted: the claw would be home/);
		expect(task.how).toEqual([
			'At pitch the tail then stands 1.50 mm high of what was wanted.',
			'A set or tuning with 12 % less pull would stand as wanted.',
		]);
		expect(balance.isDone(atEnd(0.05))).toBe(true);
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
