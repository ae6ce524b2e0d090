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

describe('how far the springs stand stretched', () => {
	const bench = benchAt(at('ask spring-lengths'));

	test.each([
		['64 47', [64, 47]],
		['64mm 47mm', [64, 47]],
		['63,5 mm, 47 mm', [63.5, 47]],
		['64; 47', [64, 47]],
		['64 47 mm', [64, 47]],
		['64 47x1.0', [64, 47]],
		['64 46 x 1,02 mm', [64, 46.92]],
		['64 47 turns of 1', [64, 47]],
		['2.52 in 1.85 in', [64.008, 46.99]],
		['2 1/2 1 7/8 in', [63.5, 47.625]],
		['2½ 1⅞ in', [63.5, 47.625]],
		['2.52in 47x.039in', [64.008, 46.5582]],
	] as const)('%s is kept', (text, [now, closed]) => {
		expect(deedsOf(typed(intake, text, bench))[0]).toMatchObject({
			type: 'SheetFilled',
			sheet: {springLengthsMm: [expect.closeTo(now, 6), expect.closeTo(closed, 6)]},
		});
	});

	test('bare numbers are in the sheet’s own unit', () => {
		const inches = benchWith({
			sheet: {...sheet, units: {length: 'in', force: 'lbf'}},
			deeds: [at('ask spring-lengths')],
		});
		expect(intake.task(inches).example).toBe('2.52 1.85');
		expect(deedsOf(typed(intake, '2 1/2 1 7/8', inches))[0]).toMatchObject({
			sheet: {springLengthsMm: [expect.closeTo(63.5, 6), expect.closeTo(47.625, 6)]},
		});
	});

	test.each([
		['64', /two lengths were expected/],
		['x y', /two lengths were expected/],
		['47 64', /closed up, 64 mm, is no shorter than as it stands, 47 mm/],
		['64 64', /is no shorter/],
		['640 47', /“640” is not a coil body from 10 mm to 200 mm/],
		['64 47x9', /“9” is not a spring wire from 0\.4 mm to 3 mm/],
		['64 2x1', /“2” is not turns of a spring from 5 to 200/],
		['120 47', /a stretch of 73 mm/],
	])('%s is refused with what was read, what is allowed and an example', (text, wrong) => {
		const answer = typed(intake, text, bench);
		if (answer.kind !== 'refused') throw new Error(`expected a refusal, got ${answer.kind}`);
		expect(answer.said).toContain(`Read “${text}”`);
		expect(answer.said).toMatch(wrong);
		expect(answer.said).toMatch(/Allowed: the coil body as it stands, then closed up .* Example: 64 47 or 64 47x1\.0$/);
	});

	test('an unusual stretch is asked about, and taken when meant', () => {
		expect(typed(intake, '49 47', bench)).toMatchObject({
			kind: 'question',
			said: expect.stringMatching(/2 mm.*unusual/),
		});
		for (const [text, meant] of [
			['49 47', true],
			['49 47!', false],
		] as const)
			expect(deedsOf(typed(intake, text, bench, meant))[0]).toMatchObject({sheet: {springLengthsMm: [49, 47]}});
	});

	test('is shown in the menu once it is known, and may be forgotten', () => {
		expect(intake.task(bench).how![0]).toBe('Now: not measured.');
		const known = benchWith({sheet: {...sheet, springLengthsMm: [63.5, 47]}, deeds: [at('ask spring-lengths')]});
		expect(intake.task(known).how![0]).toBe('Now: 63.5 from 47 mm.');
		const [deed] = deedsOf(typed(intake, 'not measured', known));
		expect(deed?.type === 'SheetFilled' && 'springLengthsMm' in deed.sheet).toBe(false);
	});

	test('how it is measured is said with a caution: nothing is unhooked', () => {
		expect(intake.task(bench).cautions!.join(' ')).toMatch(/under load: unhook nothing.*maker’s instructions/);
	});

	test('is of the guitar as it came in: once the claw was turned it is no longer taken, but a slip is put right', () => {
		const turned: Deed = {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1};
		const late = benchAt(turned, at('ask spring-lengths'));
		expect(typed(intake, '64 47', late)).toMatchObject({
			kind: 'refused',
			said: expect.stringMatching(/have moved since/),
		});
		expect(deedsOf(typed(intake, 'not measured', late))).toHaveLength(2);
		const known = benchWith({sheet: {...sheet, springLengthsMm: [46, 47]}, deeds: [turned, at('ask spring-lengths')]});
		expect(deedsOf(typed(intake, '64 47', known))[0]).toMatchObject({sheet: {springLengthsMm: [64, 47]}});
	});
});

describe('the forecast offers to measure the springs', () => {
	const read = () => benchAt(measured(0), at('change'));

	test('with how sure the turns are now and would be, before the test turn', () => {
		const how = intake.task(read()).how!.join(' ');
		const [, now, then] =
			/give or take ([\d/ ]+)\. .*w: a ruler along the springs, nothing undone: give or take ([\d/ ]+)\. .*t: a test turn/.exec(
				how,
			)!;
		const number = (text: string) =>
			text.split(' ').reduce((sum, part) => sum + Number(part.split('/')[0]) / Number(part.split('/')[1] ?? 1), 0);
		expect(number(then!)).toBeLessThan(number(now!));
		expect(keyOf(intake, 'w', read())?.does).toMatchObject({deeds: [at('springs')]});
	});

	test('measured or not, the forecast is read again, surer with it', () => {
		const asked = benchAt(measured(0), at('change'), at('springs'));
		const task = intake.task(asked);
		expect(task.practice).toEqual({kind: 'measure-springs'});
		expect(task.how!.join('\n')).toMatch(/first turn to last/);
		expect(entered(task)).toEqual([at('change')]);
		const after = benchAt(measured(0), at('change'), at('springs'), ...deedsOf(typed(intake, '62 50', asked)));
		expect(intake.task(after).headline).toMatch(/^Read what the change will do/);
		expect(after.change!.clawTurns.sd).toBeLessThan(0.75 * asked.change!.clawTurns.sd);
		expect(keyOf(intake, 'w', after)).toBeUndefined();
		expect(intake.task(after).how!.join(' ')).not.toMatch(/ruler along the springs/);
	});

	test('not where something was turned already, nor where nothing changes', () => {
		const turned: Deed = {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1};
		expect(keyOf(intake, 'w', benchAt(measured(0), turned, at('change')))).toBeUndefined();
		expect(keyOf(intake, 'w', benchWith({deeds: [at('change')]}))).toBeUndefined();
	});
});
