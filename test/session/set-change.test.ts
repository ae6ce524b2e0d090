import {describe, expect, test} from 'vitest';
import {truth} from '../../source/practice/truth.ts';
import {stringsOf} from '../../source/music/string-number.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import type {Deed} from '../../source/session/facts.ts';
import {emptyJournal, record} from '../../source/session/journal.ts';
import type {PracticeMove} from '../../source/session/practice-move.ts';
import {performPractice, practiceGuitarOf} from '../../source/session/practice-world.ts';
import {sectionsOf} from '../../source/session/report/sections.ts';
import {setUpSheet} from '../../source/session/report/set-up-sheet.ts';
import {compareForecast} from '../../source/session/set-change-compared.ts';
import {changeForecastOf} from '../../source/session/set-change.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {sheet} from '../helpers/deeds.ts';

const nines = [9, 11, 16, 24, 32, 42].map((gaugeThou, index) => ({...sheet.strings[index]!, gaugeThou}));

/** Tens go on where nines were; a simulated guitar. */
const change: InstrumentSheet = {...sheet, job: 'change', before: nines, practiceSeed: 11};

function journal(filled: InstrumentSheet, ...moves: readonly (Deed | PracticeMove)[]) {
	return moves.reduce(
		(each, move, index) =>
			record(each, 'type' in move ? [move] : performPractice(each.story, move), 1000 * (index + 1)),
		record(emptyJournal, [{type: 'SheetFilled', sheet: filled}], 0),
	);
}

const pluckAll: readonly PracticeMove[] = stringsOf(6).map(string => ({kind: 'pluck', string, how: 'open'}));
const measure: PracticeMove = {kind: 'measure-plate'};
const claw = (turns: number): Deed => ({type: 'ClawTurned', trebleTurns: turns, bassTurns: turns});

describe('before anything is undone', () => {
	test('pull of every string and in all, before and after', () => {
		const forecast = changeForecastOf(journal(change).story)!;
		expect(forecast.totalN.mean).toBeGreaterThan(forecast.totalBeforeN * 1.1);
		expect(forecast.strings.map(({nowN, beforeN}) => nowN.mean > beforeN)).toEqual(Array(6).fill(true));
		const bench = benchOf(journal(change).story);
		expect(bench.change).toEqual(forecast);
		expect(bench.strings.map(({tensionBeforeN}) => tensionBeforeN)).toEqual(forecast.strings.map(each => each.beforeN));
	});

	test('heavier strings on the same springs lift the tail and want them tighter', () => {
		const {tailAtPitchMm, letGoTailMm, clawTurns, strings} = changeForecastOf(journal(change).story)!;
		expect(letGoTailMm.mean).toBeGreaterThan(0.2);
		expect(tailAtPitchMm.mean).toBeGreaterThan(letGoTailMm.mean);
		expect(clawTurns.mean).toBeGreaterThan(0.5);
		for (const {letGoCents} of strings) expect(letGoCents!.mean).toBeLessThan(-5);
	});

	test('the same set again needs no turn', () => {
		const {clawTurns, totalN, totalBeforeN, tailAtPitchMm} = changeForecastOf(
			journal({...change, before: sheet.strings}).story,
		)!;
		expect(clawTurns.mean).toBeCloseTo(0, 6);
		expect(tailAtPitchMm.mean).toBeCloseTo(0, 6);
		expect(totalN.mean / totalBeforeN).toBeCloseTo(1, 3);
	});

	test('strings near their strength and too slack ones are named', () => {
		const raised = sheet.strings.map((row, index) => (index === 0 ? {...row, note: 'G4'} : row));
		const dropped = raised.map((row, index) => (index === 5 ? {...row, note: 'A1'} : row));
		const {strings} = changeForecastOf(journal({...change, strings: dropped}).story)!;
		expect(strings[0]!.verdict).toBe('near-strength');
		expect(strings[5]!.verdict).toBe('slack');
		expect(strings[2]!.verdict).toBe('usual');
	});

	test('one turn of the claw, read and measured, makes it surer and puts it nearer the truth', () => {
		const blind = journal(change, measure, ...pluckAll);
		const tested = journal(change, measure, ...pluckAll, claw(-1), ...pluckAll, measure, claw(1));
		const [before, after] = [blind, tested].map(({story}) => changeForecastOf(story)!);
		expect(after!.clawTurns.sd).toBeLessThan(0.6 * before!.clawTurns.sd);
	});

	test('what was foreseen stays as it was once a string is off', () => {
		const before = journal(change, measure);
		const after = journal(change, measure, {type: 'NutOpened'}, {type: 'StringRemoved', string: 6}, claw(1));
		expect(changeForecastOf(after.story)!.clawTurns.mean).toBeCloseTo(
			changeForecastOf(before.story)!.clawTurns.mean,
			9,
		);
	});

	test('nothing is foreseen where nothing changes', () => {
		expect(changeForecastOf(journal(sheet).story)).toBeUndefined();
		expect(benchOf(journal(sheet).story).change).toBeUndefined();
	});
});

describe('afterwards', () => {
	/** All strings changed, then tuned round with a peg until the bridge has settled, the claw left alone. */
	const rounds: readonly PracticeMove[] = Array.from({length: 7}, () =>
		stringsOf(6).map((string): PracticeMove => ({kind: 'turn', string, toCents: 0, by: 'peg'})),
	).flat();
	const restrung = stringsOf(6).flatMap((string): readonly Deed[] => [
		{type: 'StringRemoved', string},
		{type: 'StringFitted', string},
	]);
	const done = journal(change, measure, {type: 'NutOpened'}, ...restrung, ...rounds, ...pluckAll, measure);

	test('is set beside what came true, with the simulated truth as witness', () => {
		const compared = compareForecast(done.story)!;
		const row = (what: string) => compared.rows.find(each => each.what === what)!;
		const {tensionN, tailM} = truth(practiceGuitarOf(done.story)!);
		const totalN = tensionN.reduce((sum, each) => sum + each, 0);
		expect(Math.abs(row('total-tension').came.mean / totalN - 1)).toBeLessThan(0.05);
		expect(Math.abs(row('total-tension').foreseen.mean / totalN - 1)).toBeLessThan(0.05);
		expect(row('tail-at-pitch').came.mean).toBeCloseTo(tailM * 1000, 0);
		expect(row('claw-turns').came.mean).toBeGreaterThan(0);
		expect(compared.springsFitted).toBe(3);
		for (const {agrees} of compared.rows) expect(agrees).toBe(true);
	});

	test('stands on the set-up sheet, line by line, with what agrees and what does not', () => {
		const section = sectionsOf(setUpSheet(benchOf(done.story))).find(({title}) => /Foreseen/.test(title))!;
		const said = new Map(section.pairs!);
		expect([...said.keys()]).toEqual(['pull in all', 'claw turns', 'tail by strings alone', 'springs']);
		expect(said.get('pull in all')).toMatch(/^foreseen [\d.]+ ±[\d.]+ N; came [\d.]+ N \(as foreseen\)$/);
		expect(said.get('claw turns')).toMatch(/^foreseen .* tighter, give or take .*; came .* tighter \(as foreseen\)$/);
		expect(said.get('tail by strings alone')).toMatch(/^foreseen \+[\d.]+ ±[\d.]+ mm; came \+[\d.]+ ±[\d.]+ mm/);
		expect(said.get('springs')).toBe('foreseen 3 springs; came 3 springs (as foreseen)');
		expect(sectionsOf(setUpSheet(benchOf(journal(sheet).story))).some(({title}) => /Foreseen/.test(title))).toBe(false);
	});

	test('cannot be told before the plate was measured with the new strings on', () => {
		expect(compareForecast(journal(change, measure).story)).toBeUndefined();
		expect(compareForecast(journal(change, measure, {type: 'NutOpened'}, ...restrung).story)).toBeUndefined();
	});
});
