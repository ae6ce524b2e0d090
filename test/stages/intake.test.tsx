import {render} from 'ink-testing-library';
import {describe, expect, test} from 'vitest';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {intake} from '../../source/stages/intake/index.ts';
import {Panel} from '../../source/stages/intake/panel.tsx';
import {benchWith, deedsOf, entered, keyOf, storyOf, typed} from '../helpers/bench.ts';

function goTo(value: string): Deed {
	return {type: 'WayChosen', choice: 'intake', value};
}

/** The sheet that an answer fills. */
function filledBy(text: string, place: string, sheet: Partial<InstrumentSheet> = {}): InstrumentSheet {
	const deed = deedsOf(typed(intake, text, benchWith({sheet, deeds: [goTo(place)]})))[0];
	if (deed?.type !== 'SheetFilled') throw new Error(`expected a filled sheet, got ${deed?.type}`);
	return deed.sheet;
}

describe('from the first question to the work', () => {
	test('Enter alone starts a six-string with tens, standard, 648 mm in seven presses', () => {
		let deeds: readonly Deed[] = [];
		let presses = 0;
		const headlines: string[] = [];
		while (!benchWith({deeds}).passedStages.includes('intake')) {
			const task = intake.task(benchWith({deeds}));
			headlines.push(task.headline);
			deeds = [...deeds, ...entered(task)];
			presses++;
			expect(presses).toBeLessThan(10);
		}
		expect(presses).toBe(7);
		expect(headlines[0]).toBe('How many strings has it?');
		const {sheet} = benchWith({deeds});
		expect(sheet.strings.map(({gaugeThou}) => gaugeThou)).toEqual([10, 13, 17, 26, 36, 46]);
		expect(sheet.strings.map(({note}) => note)).toEqual(['E4', 'B3', 'G3', 'D3', 'A2', 'E2']);
		expect(sheet.scaleLengthMm).toBe(648);
		expect(decide(deeds, stateOf(storyOf())).ok).toBe(true);
	});

	test('progress never goes back on the way', () => {
		let deeds: readonly Deed[] = [];
		const shares: number[] = [];
		for (let step = 0; step < 7; step++) {
			const task = intake.task(benchWith({deeds}));
			shares.push(task.progress);
			deeds = [...deeds, ...entered(task)];
		}
		expect(shares).toEqual(shares.toSorted((a, b) => a - b));
	});
});

describe('the questions', () => {
	test('seven strings bring their own usual gauges, tuning and springs', () => {
		const sheet = filledBy('7', 'count');
		const usual = defaultSheet({strings: 7});
		expect(sheet.strings).toEqual(usual.strings);
		expect(sheet.springs).toBe(usual.springs);
	});

	test.each([
		['9', [9, 11, 16, 24, 32, 42]],
		['nines', [9, 11, 16, 24, 32, 42]],
		['10-52', [10, 13, 17, 30, 42, 52]],
		['11 14 18 28w 38w 50w', [11, 14, 18, 28, 38, 50]],
	])('gauges typed as %s', (text, gauges) => {
		expect(filledBy(text, 'set').strings.map(({gaugeThou}) => gaugeThou)).toEqual(gauges);
	});

	test.each([
		['4', ['E4', 'B3', 'G3', 'D3', 'A2', 'D2']],
		['drop D', ['E4', 'B3', 'G3', 'D3', 'A2', 'D2']],
		['C2 G2 C3 F3 A3 D4', ['D4', 'A3', 'F3', 'C3', 'G2', 'C2']],
	])('tuning typed as %s', (text, notes) => {
		expect(filledBy(text, 'tuning').strings.map(({note}) => note)).toEqual(notes);
	});

	test('a scale length in inches is understood without a unit', () => {
		expect(filledBy('25 1/2', 'scale').scaleLengthMm).toBeCloseTo(647.7, 6);
	});

	test.each([
		['count', '9'],
		['set', '9 11 16'],
		['tuning', 'E A D'],
		['scale', '25O'],
	])('at %s, %s is refused with what was read and an example', (place, text) => {
		const answer = typed(intake, text, benchWith({deeds: [goTo(place)]}));
		if (answer.kind !== 'refused') throw new Error(`expected a refusal, got ${answer.kind}`);
		expect(answer.said).toContain(text);
		expect(answer.said).toMatch(/example/i);
	});

	test('an unusual scale length is asked about, and taken when meant', () => {
		const bench = benchWith({deeds: [goTo('scale')]});
		const answer = typed(intake, '580 mm', bench);
		expect(answer.kind).toBe('question');
		expect(deedsOf(typed(intake, '580 mm', bench, true))[0]).toMatchObject({sheet: {scaleLengthMm: 580}});
	});
});

describe('the menu', () => {
	const menu = benchWith({deeds: [goTo('menu')]});

	test('shows every line with its number and value', () => {
		const how = intake.task(menu).how!.join('\n');
		for (const text of ['1 strings: 6', '4 scale: 648 mm', '5 job: whole set-up', '7 A: 440 Hz']) {
			expect(how).toContain(text);
		}
	});

	test('a number with a value sets the line and stays in the menu', () => {
		expect(deedsOf(typed(intake, '4 629', menu))).toMatchObject([
			{type: 'SheetFilled', sheet: {scaleLengthMm: 629}},
			{type: 'WayChosen', value: 'menu'},
		]);
	});

	test('so does a name with a value', () => {
		expect(deedsOf(typed(intake, 'scale 629', menu))[0]).toMatchObject({sheet: {scaleLengthMm: 629}});
	});

	test('a number alone asks for that line, and the answer comes back to the menu', () => {
		const asked = deedsOf(typed(intake, '7', menu));
		const bench = benchWith({deeds: [goTo('menu'), ...asked]});
		expect(intake.task(bench).headline).toBe('Type the new A.');
		expect(deedsOf(typed(intake, '442', bench))).toMatchObject([
			{sheet: {referenceAHz: 442}},
			{type: 'WayChosen', value: 'menu'},
		]);
		expect(entered(intake.task(bench))).toEqual([goTo('menu')]);
	});

	test.each([
		['units', 'in lbf', {units: {length: 'in', force: 'lbf'}}],
		['springs', '4', {springs: 4}],
		['plate wanted', '0.5 high', {plateWishMm: 0.5}],
		['action, 12th fret', '1.8', {actionMm: 1.8}],
		['tolerances', '2 3', {openToleranceCents: 2, frettedToleranceCents: 3}],
		['claw screw pitch', '1.5', {clawScrewPitchMm: 1.5}],
		['tail distance', '35', {tailArmMm: 35}],
		['height at nut', '0.4', {nutHeightMm: 0.4}],
		['name', 'Old black one', {name: 'Old black one'}],
		['guitar', '7', {practiceSeed: 7}],
	])('line %s takes %s', (label, text, part) => {
		const number = fieldNumber(label);
		expect(deedsOf(typed(intake, `${number} ${text}`, menu))[0]).toMatchObject({sheet: part});
	});

	test.each(['99 x', 'colour red', '8 stone', '5 nothing', '16 maybe'])(
		'%s is refused and says what is allowed',
		text => {
			expect(typed(intake, text, menu)).toMatchObject({kind: 'refused'});
		},
	);

	test('a practice guitar becomes the one on the bench again', () => {
		const bench = benchWith({sheet: {practiceSeed: 3}, deeds: [goTo('menu')]});
		const deed = deedsOf(typed(intake, `${fieldNumber('guitar')} real`, bench))[0];
		expect(deed).toMatchObject({type: 'SheetFilled'});
		expect(deed?.type === 'SheetFilled' && 'practiceSeed' in deed.sheet).toBe(false);
	});

	function fieldNumber(label: string): number {
		const line = intake.task(menu).how!.join('   ');
		return Number(new RegExp(String.raw`(\d+) ${label}:`).exec(line)![1]);
	}
});

describe('a change of gauge or tuning', () => {
	test('asks at once what was on before, gauges and then tuning', () => {
		const deeds: Deed[] = [goTo('menu')];
		deeds.push(...deedsOf(typed(intake, '5 3', benchWith({deeds}))));
		expect(intake.task(benchWith({deeds})).headline).toBe('Type the new gauges before.');
		deeds.push(...deedsOf(typed(intake, '9-42', benchWith({deeds}))));
		expect(intake.task(benchWith({deeds})).headline).toBe('Type the new tuning before.');
		deeds.push(...deedsOf(typed(intake, 'half-step down', benchWith({deeds}))));
		const {sheet, ways} = benchWith({deeds});
		expect(ways.intake).toBe('menu');
		expect(sheet.before?.map(({gaugeThou}) => gaugeThou)).toEqual([9, 11, 16, 24, 32, 42]);
		expect(sheet.before?.[0]?.note).toBe('Eb4');
		expect(sheet.strings[0]).toMatchObject({gaugeThou: 10, note: 'E4'});
	});

	test('is told what it will do: pull before and after, plate, claw turns', () => {
		const before = defaultSheet().strings.map(row => ({...row, gaugeThou: row.gaugeThou - 1}));
		const real = benchWith({deeds: [goTo('change')], sheet: {job: 'change', before}});
		const bench = {
			...real,
			change: {
				...real.change!,
				totalBeforeN: 300,
				totalN: {mean: 420, sd: 3},
				tailAtPitchMm: {mean: 2.4, sd: 0.5},
				clawTurns: {mean: 1.6, sd: 0.2},
			},
		};
		const task = intake.task(bench);
		expect(task.headline).toMatch(/the change/);
		const how = task.how!.join('\n');
		expect(how).toContain('300.0 N before, 420.0 N after: +120.0 N');
		expect(how).toContain('tail ends at 2.40 mm high');
		expect(how).toContain('both claw screws 1 5/8 turns tighter, give or take 3/8');
		expect(how).toMatch(/string 1 \(E4\) \.010: 58\.\d N, then 7\d\.\d N/);
	});

	test.each([
		['add', /plan one spring more/],
		['remove', /plan one spring fewer/],
		['re-hook', /hook the springs elsewhere/],
		['exchange', /plan other springs/],
		['cannot', /cannot both be had/],
	] as const)('that turns will not do is said before: %s', (kind, words) => {
		const real = benchWith({deeds: [goTo('change')], sheet: {job: 'change', before: defaultSheet().strings}});
		const springs = {...real.change!.springs, kind, now: {springs: 3, forceN: 95, turns: 9}} as never;
		const how = intake.task({...real, change: {...real.change!, springs}}).how!.join('\n');
		expect(how).toMatch(words);
		expect(how).toContain('95.0 N');
	});

	test('warns of strings near their strength and of slack ones', () => {
		const thin = defaultSheet().strings.map((row, index) => (index === 0 ? {...row, note: 'A4'} : row));
		const bench = benchWith({
			deeds: [goTo('change')],
			sheet: {strings: thin},
			rows: {6: {targetTensionN: 30}},
		});
		const how = intake.task(bench).how!.join('\n');
		expect(how).toMatch(/Near its strength: string 1 \(A4\)/);
		expect(how).toMatch(/slack at this pitch: string 6 \(E2\)/);
	});
});

describe('looking before touching', () => {
	const look = [goTo('look')];

	test('a number ticks one item and unticks it again', () => {
		const [tick] = deedsOf(typed(intake, '2', benchWith({deeds: look})));
		expect(tick).toMatchObject({type: 'ItemTicked', done: true});
		const after = benchWith({deeds: [...look, tick!]});
		expect(intake.task(after).how![1]).toMatch(/^\[x\] 2/);
		expect(deedsOf(typed(intake, '2', after))).toMatchObject([{done: false}]);
	});

	test('Enter ticks the rest and goes on', () => {
		const deeds = entered(intake.task(benchWith({deeds: look})));
		expect(deeds.filter(({type}) => type === 'ItemTicked')).toHaveLength(5);
		expect(deeds.at(-1)).toEqual(goTo('change'));
	});

	test.each(['9', 'x', '-1'])('%s is no item', text => {
		expect(typed(intake, text, benchWith({deeds: look}))).toMatchObject({kind: 'refused'});
	});
});

test('opened again, intake starts at the menu and does not ask everything twice', () => {
	const bench = benchWith({
		deeds: [goTo('change'), {type: 'StagePassed', stage: 'intake'}, {type: 'StageReopened', stage: 'intake'}],
	});
	expect(intake.task(bench).headline).toMatch(/Look it over/);
	expect(entered(intake.task(bench))).toEqual([goTo('change')]);
});

test('one key goes back to all settings', () => {
	expect(keyOf(intake, 'm', benchWith({deeds: [goTo('change')]}))?.does).toMatchObject({deeds: [goTo('menu')]});
});

test('the picture shows the pull of every string within its width', () => {
	const bench = benchWith();
	const {lastFrame} = render(<Panel bench={bench} width={60} height={8} />);
	const lines = lastFrame()!.split('\n');
	expect(lines[1]).toMatch(/^1 E4 .*72\.1 N$/);
	expect(lines[6]).toMatch(/^6 E2 /);
	expect(Math.max(...lines.map(line => line.length))).toBeLessThanOrEqual(60);
});
