import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {angleFor, levelRad} from '../../source/estimation/belief.ts';
import {truth} from '../../source/practice/truth.ts';
import {stringsOf} from '../../source/music/string-number.ts';
import {beliefOf} from '../../source/session/belief-of.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {clawSenseOf} from '../../source/session/claw-sense.ts';
import type {Deed} from '../../source/session/facts.ts';
import {emptyJournal, record} from '../../source/session/journal.ts';
import {lessonOf} from '../../source/session/lesson.ts';
import type {PracticeMove} from '../../source/session/practice-move.ts';
import {performPractice, practiceGuitarOf} from '../../source/session/practice-world.ts';
import {opened, read, sheet} from '../helpers/deeds.ts';
import {storyOf} from '../helpers/bench.ts';

const inTune = stringsOf(6).map(string => read(string, 0));
/** All brought to these cents by their pegs. */
const tunedTo = (cents: number) =>
	stringsOf(6).flatMap((string): Deed[] => [{type: 'PegTurned', string}, read(string, cents)]);
const tuned = [...tunedTo(0), ...inTune];
const measured = (tailMm: number, sidesMm?: {treble: number; bass: number}): Deed => ({
	type: 'PlateMeasured',
	tailMm,
	...(sidesMm ? {sidesMm} : {}),
	entered: String(tailMm),
});
const claw = (trebleTurns: number, bassTurns = trebleTurns): Deed => ({type: 'ClawTurned', trebleTurns, bassTurns});
const plateAfter = (...deeds: readonly Deed[]) => benchOf(storyOf([opened, ...deeds])).plate;

describe('turns', () => {
	test('a tail high at pitch wants both screws tighter, about hk g / (e p) less the usual softening', () => {
		const {clawTurns, tailAtPitchMm} = plateAfter(...inTune, measured(1.5));
		expect(tailAtPitchMm.mean).toBeCloseTo(1.5, 1);
		// 40 · 1.5 / (30 · 1.7) = 1.18 turns by the linear law, times about 0.77.
		expect(clawTurns.mean).toBeCloseTo(1.18 * 0.77, 1);
	});

	test('strings flat of pitch are reckoned with: the plate will come up when they come up', () => {
		const flat = stringsOf(6).map(string => read(string, -60));
		const {tailMm, tailAtPitchMm} = plateAfter(...flat, measured(0));
		expect(tailMm.mean).toBeCloseTo(0, 1);
		expect(tailAtPitchMm.mean).toBeGreaterThan(0.5);
	});

	test('a spring arm that was measured is reckoned with, and makes the turns surer', () => {
		const turnsWith = (springArmMm?: number) =>
			benchOf(storyOf([opened, ...inTune, measured(1.5)], springArmMm === undefined ? {} : {springArmMm})).plate
				.clawTurns;
		const ratio = turnsWith(46).mean / turnsWith(36).mean;
		expect(ratio / (46 / 36) ** 0.91).toBeGreaterThan(0.99);
		expect(ratio / (46 / 36) ** 0.91).toBeLessThan(1.01);
		expect(turnsWith(40).mean).toBeCloseTo(turnsWith().mean, 2);
		expect(turnsWith(40).sd).toBeLessThan(0.9 * turnsWith().sd);
	});

	test('a wish other than level is the target', () => {
		const story = (plateWishMm: number) => benchOf(storyOf([opened, ...inTune, measured(1.5)], {plateWishMm})).plate;
		expect(story(1.5).clawTurns.mean).toBeCloseTo(0, 1);
		expect(story(1.5).verdict).toBe('stands');
		expect(story(3).clawTurns.mean).toBeLessThan(-0.5);
	});
});

/** A simulated guitar whose owner has turned the claw; tuned round with the pegs until the bridge has settled. */
const rounds: readonly PracticeMove[] = Array.from({length: 8}, () =>
	stringsOf(6).map((string): PracticeMove => ({kind: 'turn', string, toCents: 0, by: 'peg'})),
).flat();
const looked: readonly PracticeMove[] = [
	...stringsOf(6).map((string): PracticeMove => ({kind: 'pluck', string, how: 'open'})),
	{kind: 'measure-plate'},
];
const workedOn = (practiceSeed: number, ...moves: readonly (Deed | PracticeMove)[]) =>
	moves.reduce(
		(journal, move, index) =>
			record(journal, 'type' in move ? [move] : performPractice(journal.story, move), 1000 * (index + 1)),
		record(emptyJournal, [{type: 'SheetFilled', sheet: {...sheet, practiceSeed}}], 0),
	).story;

describe('what the result teaches', () => {
	test.each([3, 5, 21])('guitar %i: one step brings the plate near, a second is small, the next set-up knows', seed => {
		const begun = [opened, claw(-1.5), ...rounds, ...looked];
		const first = benchOf(workedOn(seed, ...begun)).plate;
		expect(Math.abs(first.clawTurns.mean)).toBeGreaterThan(0.5);
		const turned = [...begun, claw(first.bySide.trebleTurns), ...rounds, ...looked];
		const story = workedOn(seed, ...turned);
		const second = benchOf(story).plate;
		expect(Math.abs(truth(practiceGuitarOf(story)!).tailM * 1000)).toBeLessThan(0.6);
		expect(Math.abs(second.clawTurns.mean)).toBeLessThan(0.4);
		// Told of both, the arm that the claw acts on is known about twice as well.
		const [untaught, taught] = [undefined, lessonOf(story)].map(
			lesson => clawSenseOf([], {...sheet, practiceSeed: seed}, lesson).sense.armVariance,
		);
		expect(Math.sqrt(taught!)).toBeLessThan(0.75 * Math.sqrt(untaught!));
	});
});

describe('right after a bold turn, before anything is tuned', () => {
	test('the tail shown is where the exact balance of the lever puts it', () => {
		fc.assert(
			fc.property(
				fc.double({min: -3, max: 7, noNaN: true}),
				fc.double({min: -2, max: 4.5, noNaN: true}),
				(tailMm, turns) => {
					const story = storyOf([opened, ...inTune, measured(tailMm), claw(turns)]);
					const {plate, sheet: filled} = benchOf(story);
					const belief = beliefOf(story, filled);
					const exactMm = -filled.tailArmMm * Math.sin(angleFor(belief, belief.mean) - levelRad(belief, belief.mean));
					expect(Math.abs(plate.tailMm.mean - exactMm)).toBeLessThan(0.3);
					// Strings that hold their length let only part of a turn through.
					expect(Math.abs(plate.tailMm.mean - tailMm)).toBeLessThanOrEqual(0.6 * Math.abs(turns) + 0.1);
				},
			),
			{numRuns: 40},
		);
	});

	test.each([3, 5, 19])('guitar %i: and where it truly stands', seed => {
		const story = workedOn(seed, opened, claw(-3), ...rounds, ...looked, claw(3));
		const {tailMm} = benchOf(story).plate;
		expect(Math.abs(tailMm.mean - truth(practiceGuitarOf(story)!).tailM * 1000)).toBeLessThan(0.5);
	});
});

describe('twisted plates', () => {
	test('both sides measured: unequal turns about the same mean', () => {
		const {bySide, clawTurns} = plateAfter(...inTune, measured(1, {treble: 1.5, bass: 0.5}));
		expect(bySide.twist).toBe('unequal');
		expect(bySide.trebleTurns).toBeGreaterThan(bySide.bassTurns);
		expect((bySide.trebleTurns + bySide.bassTurns) / 2).toBeCloseTo(clawTurns.mean, 0);
	});

	test('a plate that does not answer to unequal screws is not the claw’s doing', () => {
		const twisted = {treble: 0.6, bass: -0.6};
		const {bySide} = plateAfter(...inTune, measured(0, twisted), claw(0.25, -0.25), ...tuned, measured(0, twisted));
		expect(bySide.twist).toBe('not-the-claw');
		expect(bySide.trebleTurns).toBeLessThan(bySide.bassTurns);
	});
});

describe('looking', () => {
	test('after a turn that is not sure to be right, once all are roughly at pitch, before the pass is over', () => {
		const rough = tunedTo(8).concat(stringsOf(6).map(string => read(string, 8)));
		expect(plateAfter(...inTune, measured(2), claw(1.25)).isLookDue).toBe(false);
		expect(plateAfter(...inTune, measured(2), claw(1.25), ...rough).isLookDue).toBe(true);
		expect(plateAfter(...inTune, measured(2), claw(1.25), ...rough, measured(0.1)).isLookDue).toBe(false);
		const surelyRight = [measured(0.3), measured(0.3), claw(0.125)];
		expect(plateAfter(...inTune, ...surelyRight, ...rough).isLookDue).toBe(false);
	});

	test('twice before a bold turn and after one, and where it makes a turn surer; once where none is wanted', () => {
		expect(plateAfter(...inTune, measured(2)).isSecondLookDue).toBe(true);
		expect(plateAfter(...inTune, measured(2), measured(2)).isSecondLookDue).toBe(false);
		expect(plateAfter(...inTune, measured(0.3)).isSecondLookDue).toBe(true);
		expect(plateAfter(...inTune, measured(0.05)).isSecondLookDue).toBe(false);
		expect(plateAfter(...inTune, measured(2), claw(1.25), ...tuned, measured(0.1)).isSecondLookDue).toBe(true);
		expect(plateAfter(...inTune, measured(0.5), claw(0.25), ...tuned, measured(0.1)).isSecondLookDue).toBe(false);
	});

	test('near the edge of the tolerance the ruler is asked again', () => {
		expect(plateAfter(...inTune, measured(0.3)).verdict).toBe('measure-again');
		expect(plateAfter(...inTune, measured(0.05)).verdict).toBe('stands');
		expect(plateAfter(...inTune, measured(1)).verdict).toBe('off');
		expect(plateAfter(...inTune).verdict).toBe('measure-again');
	});
});

describe('a support', () => {
	test('while it is in, the claw turns to let it out level are known', () => {
		const bench = benchOf(storyOf([opened, ...inTune, measured(0), {type: 'SupportPlaced'}]));
		expect(bench.plate.turnsBeforeRelease!.mean).toBeCloseTo(0, 1);
		const low = storyOf([opened, ...inTune, measured(0), {type: 'SupportPlaced'}, ...tunedTo(-100)]);
		// Half a tone low all round pulls a good tenth less: looser, or the springs win when it comes out.
		const {plate, forecast} = benchOf(low);
		expect(plate.turnsBeforeRelease!.mean).toBeLessThan(-0.5);
		const {moves, tipMm} = forecast({kind: 'unsupport'});
		expect(tipMm.mean).toBeLessThan(-0.3);
		for (const {cents} of moves) expect(cents.mean).toBeGreaterThan(0);
	});

	test('freed by the claw until a string stirred, the plate counts as standing where it was held', () => {
		const freed: readonly Deed[] = [
			{type: 'SupportPlaced', tailMm: 0},
			...inTune,
			{type: 'ClawTurned', trebleTurns: 1, bassTurns: 1, until: {string: 6, cents: 0, from: 'rising'}},
			{type: 'SupportRemoved'},
			...inTune,
		];
		const {tailAtPitchMm, clawTurns} = benchOf(storyOf([opened, ...inTune, measured(2), ...freed])).plate;
		expect(Math.abs(tailAtPitchMm.mean)).toBeLessThan(0.05);
		expect(tailAtPitchMm.sd).toBeLessThan(0.15);
		expect(Math.abs(clawTurns.mean)).toBeLessThan(0.1);
		// And every string is expected to stand where it was set before it is heard again.
		const unheard = benchOf(storyOf([opened, ...inTune, measured(2), ...freed.slice(0, -inTune.length)]));
		for (const {now} of unheard.strings) {
			expect(Math.abs(now!.mean)).toBeLessThan(5);
			expect(now!.sd).toBeLessThan(10);
		}

		// Counted by somebody instead, an eighth more or less would be as likely.
		const again = [...freed, {type: 'ClawTurned', trebleTurns: 0.5, bassTurns: 0.5}] as const;
		expect(benchOf(storyOf([opened, ...inTune, measured(2), ...again])).plate.tailAtPitchMm.mean).toBeLessThan(-0.2);
	});

	test('without one there is nothing to let out', () => {
		expect(plateAfter(...inTune, measured(0)).turnsBeforeRelease).toBeUndefined();
	});
});

describe('a string lost', () => {
	test('the others go sharp and come back with a like one; without it less spring is wanted', () => {
		const bench = benchOf(storyOf([opened, ...inTune, measured(0)]));
		const {moves, tipMm} = bench.forecast({kind: 'remove', string: 6});
		expect(moves.map(({string}) => string)).toEqual([1, 2, 3, 4, 5]);
		for (const {cents} of moves) expect(cents.mean).toBeGreaterThan(20);
		expect(tipMm.mean).toBeLessThan(-0.2);
		const {clawTurns, replaced} = bench.without(6);
		expect(clawTurns.mean).toBeLessThan(replaced.clawTurns.mean - 0.3);
		// Once it is off, a like one still brings the others back.
		const off = benchOf(storyOf([opened, ...inTune, measured(0), {type: 'StringRemoved', string: 6}]));
		expect(off.without(6).replaced.clawTurns.mean).toBeCloseTo(replaced.clawTurns.mean, 1);
		expect(off.without(6).clawTurns.mean).toBeCloseTo(clawTurns.mean, 1);
	});
});

test('pull-up and dive are told for every string', () => {
	for (const {arm} of benchOf(storyOf([opened, ...inTune, measured(0)])).strings) {
		expect(arm!.pullUpCents).toBeGreaterThan(50);
		expect(arm!.diveCents === undefined || arm!.diveCents < -200).toBe(true);
	}
});
