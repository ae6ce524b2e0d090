import {describe, expect, test} from 'vitest';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Deed} from '../../source/session/facts.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {intake} from '../../source/stages/intake/index.ts';
import {benchWith, deedsOf, entered, keyOf, typed} from '../helpers/bench.ts';
import {read} from '../helpers/deeds.ts';

const thinner = defaultSheet().strings.map(row => ({...row, gaugeThou: row.gaugeThou - 1}));
const sheet: Partial<InstrumentSheet> = {job: 'change', before: thinner};
const at = (value: string): Deed => ({type: 'WayChosen', choice: 'intake', value});
const measured = (tailMm: number): Deed => ({type: 'PlateMeasured', tailMm, entered: String(tailMm)});
const benchAt = (...deeds: readonly Deed[]) => benchWith({sheet, deeds});
const allRead = ([1, 2, 3, 4, 5, 6] as const).map(string => read(string, 0));

describe('before anything is undone', () => {
	test('a change asks how the plate stands; Enter goes on without, a height goes on with it', () => {
		const task = intake.task(benchAt(at('before')));
		expect(task.headline).toMatch(/^Measure the tail edge of the plate before anything is undone/);
		expect(entered(task)).toEqual([at('change')]);
		expect(deedsOf(typed(intake, '0.4 high', benchAt(at('before'))))).toMatchObject([
			{type: 'PlateMeasured', tailMm: 0.4},
		]);
		expect(intake.task(benchAt(at('before'), measured(0.4))).headline).toMatch(/^Read what the change will do/);
	});

	test('other jobs are not asked', () => {
		const look = benchWith({deeds: [at('look')]});
		expect(entered(intake.task(look)).at(-1)).toEqual(at('change'));
		expect(entered(intake.task(benchAt(at('look')))).at(-1)).toEqual(at('before'));
	});
});

describe('the test turn of the claw', () => {
	const begun = [measured(0), at('change'), at('test')] as const;

	test('is offered where the turns are anybody’s guess, with what it is worth', () => {
		const bench = benchAt(measured(0), at('change'));
		expect(intake.task(bench).how!.join(' ')).toMatch(
			/t: a test turn\. Simulated, half a turn is then met \d\d times in 100/,
		);
		expect(keyOf(intake, 't', bench)?.does).toMatchObject({deeds: [at('test')]});
	});

	test('strings first, then one turn the way that the change wants, then strings and plate again', () => {
		const first = intake.task(benchAt(...begun));
		expect(first.practice).toEqual({kind: 'pluck', string: 1, how: 'open'});
		expect(deedsOf(typed(intake, '-3', benchAt(...begun)))).toMatchObject([{type: 'PitchRead', string: 1, cents: -3}]);
		const turn = benchAt(...begun, ...allRead);
		expect(intake.task(turn).headline).toBe('Turn both claw screws 1 turn tighter, as a test.');
		expect(deedsOf(typed(intake, '3/4', turn))).toEqual([{type: 'ClawTurned', trebleTurns: 0.75, bassTurns: 0.75}]);
		const turned: Deed = {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1};
		expect(intake.task(benchAt(...begun, ...allRead, turned)).practice).toEqual({
			kind: 'pluck',
			string: 1,
			how: 'open',
		});
		const look = benchAt(...begun, ...allRead, turned, ...allRead);
		expect(intake.task(look).practice).toEqual({kind: 'measure-plate'});
	});

	test('done, the turns left are told beside those made, and it is offered no more', () => {
		const after = ([1, 2, 3, 4, 5, 6] as const).map(string => read(string, 30));
		const turned: Deed = {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1};
		const bench = benchAt(...begun, ...allRead, turned, ...after, measured(-0.5));
		const task = intake.task(bench);
		expect(task.headline).toMatch(/^Read what the change will do/);
		expect(task.how!.join(' ')).toMatch(/made already: 1 turn tighter; left: /);
		expect(keyOf(intake, 't', bench)).toBeUndefined();
		expect(bench.change!.clawTurns.sd).toBeLessThan(benchAt(measured(0)).change!.clawTurns.sd);
	});

	test('looser where the change wants looser', () => {
		const thicker = defaultSheet().strings.map(row => ({...row, gaugeThou: row.gaugeThou + 1}));
		const bench = benchWith({sheet: {job: 'change', before: thicker}, deeds: [...begun, ...allRead]});
		expect(intake.task(bench).headline).toBe('Turn both claw screws 1 turn looser, as a test.');
	});

	test('can be left', () => {
		expect(keyOf(intake, 'x', benchAt(...begun))?.does).toMatchObject({deeds: [at('change')]});
	});
});

describe('travel left on the claw screws', () => {
	const bench = benchAt(at('ask travel'));

	test.each([
		['5 looser 6 tighter', [5, 6]],
		['5 6', [5, 6]],
		['4.5, 7', [4.5, 7]],
	] as const)('%s is kept', (text, clawTurnsLeft) => {
		expect(deedsOf(typed(intake, text, bench))[0]).toMatchObject({type: 'SheetFilled', sheet: {clawTurnsLeft}});
	});

	test('not measured forgets it', () => {
		const counted = benchWith({sheet: {clawTurnsLeft: [5, 6]}, deeds: [at('ask travel')]});
		expect(intake.task(counted).how![0]).toBe('Now: 5 looser, 6 tighter.');
		const [deed] = deedsOf(typed(intake, 'not measured', counted));
		expect(deed?.type === 'SheetFilled' && deed.sheet.clawTurnsLeft).toBeUndefined();
	});

	test.each(['5', 'x y', '5 90', 'much'])('%s is refused', text => {
		expect(typed(intake, text, bench)).toMatchObject({kind: 'refused'});
	});
});

describe('the arm that the springs pull on', () => {
	const bench = benchAt(at('ask spring-arm'));

	test.each([
		['38', 38],
		['1.6 in', 40.64],
	])('%s is kept', (text, springArmMm) => {
		expect(deedsOf(typed(intake, text, bench))[0]).toMatchObject({
			type: 'SheetFilled',
			sheet: {springArmMm: expect.closeTo(springArmMm, 6)},
		});
	});

	test('is not measured until somebody does, and may be forgotten', () => {
		expect(intake.task(bench).how![0]).toBe('Now: not measured.');
		const known = benchWith({sheet: {springArmMm: 38}, deeds: [at('ask spring-arm')]});
		const [deed] = deedsOf(typed(intake, 'not measured', known));
		expect(deed?.type === 'SheetFilled' && 'springArmMm' in deed.sheet).toBe(false);
	});

	test.each(['5', 'x', '90'])('%s is refused', text => {
		expect(typed(intake, text, bench)).toMatchObject({kind: 'refused'});
	});
});
