import {describe, expect, test} from 'vitest';
import {sheetMarkdown} from '../../../source/session/report/as-markdown.ts';
import {sheetText} from '../../../source/session/report/as-text.ts';
import {setUpSheet} from '../../../source/session/report/set-up-sheet.ts';
import type {Deed} from '../../../source/session/facts.ts';
import {allInTune, benchWith, type Pinned} from '../../helpers/bench.ts';
import {opened, read} from '../../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const clamped: Deed = {type: 'NutClamped'};
const measured = (tailMm: number): Deed => ({type: 'PlateMeasured', tailMm, entered: String(tailMm)});

/** As it came in, worked on, and read at the end. */
const worked: readonly Deed[] = [
	...six.map(string => read(string, -10 * string)),
	opened,
	measured(1.4),
	{type: 'ClawTurned', trebleTurns: 0.5, bassTurns: 0.5},
	...six.flatMap((string): Deed[] => [{type: 'PegTurned', string, untilCents: 0}, read(string, 0)]),
	read(2, 0, 'harmonic'),
	read(2, 5, 'fretted'),
	{type: 'StringSlackened', string: 2},
	{type: 'SaddleMoved', string: 2, travelMm: 1.87},
	{type: 'PegTurned', string: 2, untilCents: 0},
	clamped,
	{type: 'FineTunerTurned', string: 1},
	...six.map(string => read(string, 0.5)),
	read(2, 1, 'fretted'),
	measured(0.1),
	{type: 'NoteWritten', text: 'Second fret a little *worn*.'},
];

function sheetOf(deeds: readonly Deed[], pinned: Pinned = {}) {
	return setUpSheet(benchWith({tuning: allInTune, deeds, ...pinned}));
}

describe('what came in and what it reads now', () => {
	const sheet = sheetOf(worked);

	test('the first reading is the one before the string was touched', () => {
		expect(sheet.strings.map(({firstCents}) => firstCents)).toEqual([-10, -20, -30, -40, -50, -60]);
	});

	test('now is what was read last with nothing touched since', () => {
		expect(sheet.strings[0]).toMatchObject({nowCents: 0.5, isRead: true});
	});

	test('intonation before the saddle moved and at the end', () => {
		expect(sheet.strings[1]).toMatchObject({
			firstIntonationCents: 5,
			nowIntonationCents: 0.5,
			saddleMovedMm: 1.87,
		});
		expect(sheet.strings[2]).toMatchObject({saddleMovedMm: 0});
		expect('nowIntonationCents' in sheet.strings[2]!).toBe(false);
	});

	test('the plate before and after, and the claw', () => {
		expect(sheet.plate).toEqual({firstTailMm: 1.4, nowTailMm: 0.1, isMeasured: true, wishMm: 0, clawTurns: 0.5});
	});

	test('every kind of work is counted', () => {
		expect(sheet.work).toEqual({
			pegTurns: 7,
			fineTunerTurns: 1,
			saddleMoves: 1,
			clawSteps: 1,
			stringsFitted: 0,
			plucks: 21,
		});
	});

	test('a string turned since its last reading is marked as believed', () => {
		const touched = sheetOf([...worked, {type: 'FineTunerTurned', string: 4}]);
		expect(touched.strings.every(({isRead}) => !isRead)).toBe(true);
		expect(touched.plate.isMeasured).toBe(false);
	});

	test('pulls are summed, before and after where strings were changed', () => {
		expect(sheet.totalN).toBeCloseTo(462.1, 0);
		expect('totalBeforeN' in sheet).toBe(false);
		const rows = Object.fromEntries(six.map(string => [string, {tensionBeforeN: 50}]));
		expect(sheetOf(worked, {rows}).totalBeforeN).toBe(300);
	});
});

describe('what to watch', () => {
	const kinds = (deeds: readonly Deed[], pinned: Pinned = {}) => sheetOf(deeds, pinned).watch.map(({kind}) => kind);
	const level = {plate: {tailMm: {mean: 0.1, sd: 0.1}}};

	test('nothing when nothing is out of the ordinary', () => {
		expect(kinds(worked, level)).toEqual([]);
	});

	test('new strings settle', () => {
		const fitted: Deed[] = [
			{type: 'StringRemoved', string: 1},
			{type: 'StringFitted', string: 1},
		];
		expect(kinds([opened, ...fitted], level)).toContain('new-strings');
	});

	test('a pitch, an intonation, a plate, a string near its strength', () => {
		expect(kinds([...worked, read(3, 4)], level)).toEqual(['pitch']);
		expect(kinds([...worked, read(4, 5, 'fretted')], level)).toEqual(['intonation']);
		expect(kinds(worked, {plate: {tailMm: {mean: 0.8, sd: 0.1}}})).toEqual(['plate']);
		expect(kinds(worked, {...level, rows: {1: {strengthShare: 0.7}}})).toEqual(['near-strength']);
	});

	test('what the arm left behind, with its likely cause', () => {
		const dived = [
			...worked,
			{type: 'ArmMoved', motion: 'dive'} as const,
			...six.map(string => read(string, string === 5 ? -9 : 0.5)),
		];
		const {watch, proofs} = sheetOf(dived, level);
		expect(proofs).toMatchObject([{motion: 'dive', leftover: {verdict: 'string-slips', string: 5, worstCents: -9.5}}]);
		expect(watch.map(({kind}) => kind)).toEqual(['arm', 'pitch']);
	});

	test('an arm after which not all strings were read proves nothing', () => {
		expect(sheetOf([...worked, {type: 'ArmMoved', motion: 'dive'}, read(1, 9)]).proofs).toEqual([]);
	});

	test('a plate that stays off in proportion to the response is told from a claw by the movement the other way', () => {
		const before = [...six.map(string => read(string, 0.5)), ...six.map(string => read(string, 0.5))];
		const {moves} = benchWith({tuning: allInTune, deeds: before}).forecast({kind: 'claw', turns: 1});
		const most = Math.max(...moves.map(({cents}) => Math.abs(cents.mean)));
		const off = (by: number) =>
			six.map(each => read(each, 0.5 + (by * Math.abs(moves.find(({string}) => string === each)!.cents.mean)) / most));
		const arm = (motion: 'dive' | 'pull-up'): Deed => ({type: 'ArmMoved', motion});
		const dived = [...before, arm('dive'), ...off(-9)];
		expect(sheetOf(dived).proofs).toMatchObject([{leftover: {verdict: 'unclear'}}]);
		expect(sheetText(sheetOf(dived)).join('\n')).toMatch(/plate does not come home, or spring or claw moved/);
		expect(sheetOf([...dived, arm('pull-up'), ...off(9)]).proofs.at(-1)).toMatchObject({leftover: {verdict: 'plate'}});
		expect(sheetOf([...dived, arm('pull-up'), ...off(-18)]).proofs).toMatchObject([
			{leftover: {verdict: 'claw'}},
			{leftover: {verdict: 'claw'}},
		]);
	});
});

describe('as text', () => {
	const text = sheetText(sheetOf(worked, {sheet: {name: 'Old black one'}}));

	test('begins with the name and has every section', () => {
		expect(text[0]).toBe('Set-up sheet: Old black one');
		for (const title of ['INSTRUMENT', 'STRINGS', 'BRIDGE', 'WHAT WAS DONE', 'WHAT TO WATCH', 'NOTES', 'PLEASE MIND']) {
			expect(text).toContain(title);
		}
	});

	test('one row a string, in columns, narrow enough for a small screen', () => {
		const from = text.indexOf('STRINGS');
		const rows = text.slice(from + 1, from + 8);
		expect(rows[2]).toBe('  2 B3   .013  −20.0   +0.5 +5.0        +0.5     1.87 mm back 68.6 N');
		expect(Math.max(...rows.map(row => row.length))).toBeLessThanOrEqual(78);
	});

	test('units are those chosen', () => {
		const inches = sheetText(sheetOf(worked, {sheet: {units: {length: 'in', force: 'lbf'}}})).join('\n');
		expect(inches).toMatch(/0\.074 in back/);
		expect(inches).toMatch(/pull at pitch +103\.\d lbf/);
		expect(inches).not.toMatch(/\d mm|\d N\b/);
	});
});

describe('as Markdown', () => {
	const markdown = sheetMarkdown(sheetOf(worked, {sheet: {name: 'Old | black'}}));

	test('has headings and a table whose rows have as many cells as its head', () => {
		expect(markdown.startsWith('# Set-up sheet: Old \\| black\n')).toBe(true);
		const table = markdown.split('\n').filter(line => line.startsWith('|'));
		expect(table).toHaveLength(8);
		for (const row of table) expect(row.split(' | ')).toHaveLength(8);
	});

	test('what a person typed does not become markup', () => {
		expect(markdown).toContain('Second fret a little \\*worn\\*.');
	});

	test('says on a practice guitar that there is no real instrument', () => {
		expect(sheetMarkdown(sheetOf(worked, {sheet: {practiceSeed: 3}}))).toMatch(/Practice guitar: simulated/);
	});
});
