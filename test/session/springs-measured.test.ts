import {describe, expect, test} from 'vitest';
import {rngFrom} from '../../source/numeric/rng.ts';
import {springsOpenM, rigOf} from '../../source/practice/rig.ts';
import {stringsOf} from '../../source/music/string-number.ts';
import {beliefOf} from '../../source/session/belief-of.ts';
import {isFact} from '../../source/session/fact-shape.ts';
import type {Deed} from '../../source/session/facts.ts';
import {emptyJournal, record} from '../../source/session/journal.ts';
import {taughtByOldStrings} from '../../source/session/old-strings-told.ts';
import type {PracticeMove} from '../../source/session/practice-move.ts';
import {performPractice, practiceGuitarOf} from '../../source/session/practice-world.ts';
import {changeForecastOf} from '../../source/session/set-change.ts';
import {stateOf} from '../../source/session/evolve.ts';
import {type InstrumentSheet, sheetForNextTime, stretchMm} from '../../source/session/sheet.ts';
import {layoutOf} from '../../source/estimation/layout.ts';
import {sheet} from '../helpers/deeds.ts';

const nines = [9, 11, 16, 24, 32, 42].map((gaugeThou, index) => ({...sheet.strings[index]!, gaugeThou}));
const change: InstrumentSheet = {...sheet, job: 'change', before: nines, practiceSeed: 11};
const {rate} = layoutOf(6);

function journal(filled: InstrumentSheet, ...moves: readonly (Deed | PracticeMove)[]) {
	return moves.reduce(
		(each, move, index) =>
			record(each, 'type' in move ? [move] : performPractice(each.story, move), 1000 * (index + 1)),
		record(emptyJournal, [{type: 'SheetFilled', sheet: filled}], 0),
	).story;
}

const measure: PracticeMove = {kind: 'measure-plate'};
const springs: PracticeMove = {kind: 'measure-springs'};
const pluckAll: readonly PracticeMove[] = stringsOf(6).map(string => ({kind: 'pluck', string, how: 'open'}));
const claw = (turns: number): Deed => ({type: 'ClawTurned', trebleTurns: turns, bassTurns: turns});

describe('given a change of set, nothing undone yet', () => {
	const before = journal(change, measure);
	const after = journal(change, measure, springs);

	test('when the springs are measured, the turns are as sure as it was said they would be', () => {
		const [unsure, sure] = [before, after].map(story => changeForecastOf(story)!);
		expect(unsure!.clawTurnsIfMeasured!.sd).toBeLessThan(0.75 * unsure!.clawTurns.sd);
		expect(sure!.clawTurns.sd / unsure!.clawTurnsIfMeasured!.sd).toBeGreaterThan(0.6);
		expect(sure!.clawTurns.sd / unsure!.clawTurnsIfMeasured!.sd).toBeLessThan(1.4);
		expect(sure!.clawTurnsIfMeasured).toBeUndefined();
	});

	test('when a hand has changed something, nothing more is promised', () => {
		expect(changeForecastOf(journal(change, measure, claw(1)))!.clawTurnsIfMeasured).toBeUndefined();
	});

	test('springs that stand stretched further want more turns', () => {
		const turns = ([64, 68, 72] as const).map(
			now => changeForecastOf(journal({...change, springLengthsMm: [now, 47]}, measure))!.clawTurns.mean,
		);
		expect(turns).toEqual(turns.toSorted((one, other) => one - other));
		expect(turns[2]! / turns[0]!).toBeGreaterThan(1.2);
	});

	test('the practice guitar shows what its springs are stretched by', () => {
		const shown = stretchMm(stateOf(after).sheet!.springLengthsMm!);
		const guitar = practiceGuitarOf(before)!;
		expect(Math.abs(shown - 1000 * springsOpenM(rigOf(guitar), guitar.angleRad)[1]!)).toBeLessThan(2);
		for (const length of stateOf(after).sheet!.springLengthsMm!) expect((2 * length) % 1).toBe(0);
		// Another pair of hands, another reading; the same hands, the same.
		expect(journal(change, measure, springs)).toEqual(after);
		expect(rngFrom(11, 1, 1).normal()).not.toBe(rngFrom(11, 2, 1).normal());
	});
});

describe('given a test turn with the old strings on as well', () => {
	const clawTest = [...pluckAll, claw(1), ...pluckAll, measure];

	test('ruler and claw together make the turns surer than either', () => {
		const sd = (...moves: readonly (Deed | PracticeMove)[]) =>
			changeForecastOf(journal(change, measure, ...moves))!.clawTurns.sd;
		const both = sd(springs, ...clawTest);
		expect(both).toBeLessThan(sd(springs));
		expect(both).toBeLessThan(sd(...clawTest));
	});

	test('what the ruler told is in the lesson of the old strings, and counted once', () => {
		// A test that moves no spring: all that is learned of their rate is the ruler's and the lesson's.
		const tested = journal(change, springs, ...pluckAll, {type: 'FineTunerTurned', string: 6}, ...pluckAll);
		const filled = stateOf(tested).sheet!;
		const {springLengthsMm: _, ...silent} = filled;
		const rateSd = (story: typeof tested, told: InstrumentSheet) =>
			Math.sqrt(taughtByOldStrings(story, told)!.covariance[3 * 6]![3 * 6]!);
		expect(rateSd(tested, filled)).toBeLessThan(rateSd(tested, silent));
		const after = beliefOf(tested, filled).covariance;
		expect(Math.sqrt(after.get(rate, rate))).toBeGreaterThan(rateSd(tested, filled));
	});
});

describe('a whole set-up, no old strings told of', () => {
	test('how the bridge answers is known better from the start', () => {
		const lengths: InstrumentSheet = {...sheet, springLengthsMm: [64, 47]};
		const sd = (filled: InstrumentSheet, ...deeds: readonly Deed[]) =>
			Math.sqrt(beliefOf(journal(filled, ...deeds), filled).covariance.get(rate, rate));
		expect(sd(lengths)).toBeLessThan(0.65 * sd(sheet));
		const read: Deed = {type: 'PitchRead', string: 6, how: 'open', cents: -20, entered: '-20'};
		expect(sd(lengths, read)).toBeLessThan(0.65 * sd(sheet, read));
	});
});

describe('kept', () => {
	const fact = (springLengthsMm: unknown) => ({
		type: 'SheetFilled',
		sheet: {...sheet, springLengthsMm},
		at: 0,
		entry: 1,
	});

	test('with the set-up; one from before it could be told is read as ever', () => {
		expect(isFact(fact([64, 47]))).toBe(true);
		expect(isFact({type: 'SheetFilled', sheet, at: 0, entry: 1})).toBe(true);
		for (const damaged of [[64], [64, '47'], 17, null]) expect(isFact(fact(damaged))).toBe(false);
	});

	test('not for the next time: the springs stand otherwise then', () => {
		expect(sheetForNextTime({...sheet, springLengthsMm: [64, 47]})).toEqual(sheet);
	});
});
