import {render} from 'ink-testing-library';
import {describe, expect, test} from 'vitest';
import type {StringNumber} from '../../source/music/string-number.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {intonate} from '../../source/stages/intonate/index.ts';
import {Panel} from '../../source/stages/intonate/panel.tsx';
import {allInTune, benchWith, deedsOf, entered, keyOf, type Pinned, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const way = (value: 'together' | 'single'): Deed => ({type: 'WayChosen', choice: 'intonation', value});
const pair = (string: StringNumber, error: number): Deed[] => [
	read(string, 0.5, 'harmonic'),
	read(string, 0.4 + error, 'fretted'),
	read(string, 0.6 + error, 'fretted'),
];
const six = [1, 2, 3, 4, 5, 6] as const;
const slack = (...strings: StringNumber[]): Deed[] => strings.map(string => ({type: 'StringSlackened', string}));
const moved = (string: StringNumber, travelMm: number): Deed => ({type: 'SaddleMoved', string, travelMm});
/** Errors of every string in cents; moves as the slope of 0.3746 mm per cent at 648 mm would have them. */
const errors: Readonly<Record<StringNumber, number>> = {1: 0.5, 2: 5, 3: -1, 4: -4, 5: 0, 6: 8, 7: 0, 8: 0};
const allRead = six.flatMap(string => pair(string, errors[string]));

function bench(deeds: readonly Deed[], pinned: Pinned = {}) {
	const rows = Object.fromEntries(
		six.map(string => [
			string,
			{saddleMoveMm: {mean: 0.3746 * errors[string], sd: 0.26}, saddleMm: 3, ...pinned.rows?.[string]},
		]),
	);
	return benchWith({tuning: allInTune, ...pinned, deeds: [opened, ...deeds], rows});
}

describe('the way', () => {
	test('is chosen first, reading all strings first being what Enter takes', () => {
		const task = intonate.task(bench([]));
		expect(task.headline).toMatch(/Choose how the saddles/);
		expect(task.how!.join('\n')).toMatch(/1 read all strings.*6 saddle moves and 8 turns/);
		expect(entered(task)).toEqual([way('together')]);
		expect(deedsOf(typed(intonate, '2', bench([])))).toEqual([way('single')]);
		expect(typed(intonate, '3', bench([]))).toMatchObject({kind: 'refused'});
	});

	test('one key changes over at any time', () => {
		expect(keyOf(intonate, 'z', bench([way('together')]))?.does).toMatchObject({deeds: [way('single')]});
		expect(keyOf(intonate, 'z', bench([way('single')]))?.does).toMatchObject({deeds: [way('together')]});
	});
});

describe('reading', () => {
	test('harmonic, then fretted 12th, string by string', () => {
		const first = intonate.task(bench([way('together')]));
		expect(first.headline).toBe('Sound the 12th-fret harmonic of string 1 (E4).');
		expect(first.practice).toEqual({kind: 'pluck', string: 1, how: 'harmonic'});
		const second = intonate.task(bench([way('together'), read(1, 0.5, 'harmonic')]));
		expect(second.headline).toBe('Press string 1 (E4) at the 12th fret and pluck it.');
		expect(second.practice).toEqual({kind: 'pluck', string: 1, how: 'fretted', fret: 12});
		const third = intonate.task(bench([way('together'), read(1, 0.5, 'harmonic'), read(1, 1, 'fretted')]));
		expect(third.headline).toMatch(/^Lift the finger, press string 1/);
		expect(intonate.task(bench([way('together'), ...pair(1, 0)])).headline).toMatch(/harmonic of string 2/);
	});

	test('two fretted plucks on one line are enough', () => {
		const start = [way('together'), read(1, 0.5, 'harmonic')];
		const deeds = deedsOf(typed(intonate, '+1 +0.6', bench(start)));
		expect(intonate.task(bench([...start, ...deeds])).headline).toMatch(/harmonic of string 2/);
	});

	test('what is typed is stored as sounded, repeated plucks each', () => {
		expect(deedsOf(typed(intonate, '+1 +0.5 +1.5', bench([way('together')])))).toMatchObject([
			{type: 'PitchRead', string: 1, how: 'harmonic', cents: 1},
			{how: 'harmonic', cents: 0.5},
			{how: 'harmonic', cents: 1.5},
		]);
	});

	test('a harmonic read before something was turned is read again with its fretted note', () => {
		const deeds: Deed[] = [way('together'), read(1, 0.5, 'harmonic'), {type: 'PegTurned', string: 4}];
		expect(intonate.task(bench(deeds)).headline).toMatch(/harmonic of string 1/);
	});

	test('another string can be taken first', () => {
		const taken = deedsOf(typed(intonate, '4:', bench([way('together')])));
		expect(intonate.task(bench([way('together'), ...taken])).headline).toMatch(/harmonic of string 4/);
		// Its second reading follows, before the others.
		expect(intonate.task(bench([way('together'), ...taken, read(4, 0, 'harmonic')])).headline).toMatch(
			/Press string 4/,
		);
	});

	test('the open string plucked in place of the fretted one is asked about', () => {
		const answer = typed(intonate, '329.6 hz', bench([way('together'), read(1, 0, 'harmonic')]));
		expect(answer).toMatchObject({kind: 'question', said: expect.stringMatching(/open string/)});
	});

	test.each(['', 'sharp', '1O'])('%s is refused', text => {
		expect(typed(intonate, text, bench([way('together')]))).toMatchObject({kind: 'refused'});
	});
});

describe('all in one slack period', () => {
	const start = [way('together'), ...allRead];

	test('those beyond tolerance are slackened together, distances and travel said before', () => {
		const task = intonate.task(bench(start));
		expect(task.headline).toBe('Slacken strings 2, 4 and 6 until loose, saddle screws still tight.');
		expect(task.act).toEqual({kind: 'slacken', strings: [2, 4, 6]});
		expect(entered(task)).toEqual(slack(2, 4, 6));
		// Range −2 to 8 mm, saddle at 3 mm: 1.87 mm back leaves 3.13 mm.
		expect(task.how![0]).toBe('string 2: 1.87 mm back, 3.13 mm left after that');
		expect(task.how![1]).toMatch(/^string 4: 1\.50 mm forward, 3\.50 mm left/);
		expect(task.why).toMatch(/do not chase/);
	});

	test('a saddle that cannot go that far is said so before anything is slackened', () => {
		const task = intonate.task(bench(start, {rows: {6: {saddleMm: 7}}}));
		expect(task.how![2]).toMatch(/string 6: 3\.00 mm back, out of reach: 1\.00 mm back is the end/);
	});

	test('travel that nobody measured is to be looked at', () => {
		const real = benchWith({
			deeds: [opened, ...start],
			tuning: allInTune,
			rows: {2: {saddleMoveMm: {mean: 1, sd: 0.2}}},
		});
		expect(intonate.task(real).how![0]).toBe('string 2: 1.00 mm back, check that the saddle has that much left');
	});

	test('some of them can be named; the rest stay as they are', () => {
		expect(deedsOf(typed(intonate, '2 6', bench(start)))).toEqual([
			{type: 'ItemTicked', item: 'intonation of string 4 left as it is', done: true},
			...slack(2, 6),
		]);
		expect(typed(intonate, '1 2', bench(start))).toMatchObject({kind: 'refused'});
	});

	test('then each saddle is moved on its slack string', () => {
		const task = intonate.task(bench([...start, ...slack(2, 4, 6)]));
		expect(task.headline).toBe('Move the saddle of string 2 (B3) 1.87 mm back, away from the neck.');
		expect(task.why).toMatch(/5\.0 cents sharp of the harmonic/);
		expect(entered(task)).toMatchObject([{type: 'SaddleMoved', string: 2, travelMm: expect.closeTo(1.873, 3)}]);
		expect(task.cautions!.join(' ')).toMatch(/slack before its saddle screw/);
		const next = intonate.task(bench([...start, ...slack(2, 4, 6), moved(2, 1.87)]));
		expect(next.headline).toBe('Move the saddle of string 4 (D3) 1.50 mm forward, towards the neck.');
	});

	test.each([
		['1.2', 1.2],
		['0.5 forward', -0.5],
		['1/16 in', 1.5875],
	])('what was really moved can be typed: %s', (text, travelMm) => {
		expect(deedsOf(typed(intonate, text, bench([...start, ...slack(2, 4, 6)])))).toEqual([
			{type: 'SaddleMoved', string: 2, travelMm: expect.closeTo(travelMm, 6)},
		]);
	});

	const afterMoves = [...start, ...slack(2, 4, 6), moved(2, 1.87), moved(4, -1.5), moved(6, 3)];

	test('then one guided pass', () => {
		const task = intonate.task(bench(afterMoves, {tuning: turn(6, 40)}));
		expect(task.headline).toMatch(/^Turn string 6/);
	});

	test('then only the moved ones are read again', () => {
		expect(intonate.task(bench(afterMoves)).headline).toMatch(/harmonic of string 2/);
		const proved = [...afterMoves, ...pair(2, 0.5), ...pair(4, -0.3), ...pair(6, 0.8)];
		expect(intonate.isDone(bench(proved))).toBe(true);
		expect(entered(intonate.task(bench(proved)))).toEqual([{type: 'StagePassed', stage: 'intonate'}]);
	});

	test('one that is still off is moved once more', () => {
		const proved = [...afterMoves, ...pair(2, 0.5), ...pair(4, -0.3), ...pair(6, 3)];
		expect(intonate.task(bench(proved)).headline).toMatch(/^Slacken string 6/);
	});

	test('the facts of the whole way are allowed by the rules of the bench', () => {
		const {story} = benchWith();
		expect(decide([opened, ...afterMoves], stateOf(story)).ok).toBe(true);
	});
});

describe('string by string', () => {
	test('each is proved before the next is read', () => {
		const start = [way('single'), ...pair(1, 0), ...pair(2, 5)];
		expect(intonate.task(bench(start)).headline).toMatch(/^Slacken string 2 \(?/);
		const after = [...start, ...slack(2), moved(2, 1.87)];
		expect(intonate.task(bench(after, {tuning: turn(2, 3)})).headline).toMatch(/^Turn string 2/);
		expect(intonate.task(bench(after)).headline).toMatch(/harmonic of string 2/);
		expect(intonate.task(bench([...after, ...pair(2, 0)])).headline).toMatch(/harmonic of string 3/);
	});
});

describe('close enough', () => {
	test('is judged against the tolerance', () => {
		const wide = bench([way('together'), ...allRead], {sheet: {frettedToleranceCents: 5}});
		expect(intonate.task(wide).headline).toMatch(/^Slacken string 6/);
	});

	test('and against the offset wanted of that string', () => {
		const strings = benchWith().sheet.strings.map((row, index) =>
			index === 5 ? {...row, frettedOffsetCents: 8} : row,
		);
		const task = intonate.task(bench([way('together'), ...allRead], {sheet: {strings}}));
		expect(task.headline).toMatch(/^Slacken strings 2 and 4/);
	});

	test('and never finer than the tuner can tell', () => {
		const fine = bench([way('together'), ...six.flatMap(string => pair(string, 0.5))], {
			sheet: {frettedToleranceCents: 0.2},
		});
		expect(intonate.isDone(fine)).toBe(true);
		expect(intonate.task(fine).why).toMatch(/within what your tuner can tell/);
	});

	test('one key leaves a string as it is', () => {
		const deeds = [way('together'), ...six.flatMap(string => pair(string, string === 6 ? 8 : 0))];
		const does = keyOf(intonate, 'i', bench(deeds))!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		expect(intonate.isDone(bench([...deeds, ...does.deeds]))).toBe(true);
	});
});

test('new strings of the same kind do not need it', () => {
	expect(intonate.isNeeded(benchWith({sheet: {job: 'restring'}}))).toBe(false);
	expect(intonate.isNeeded(benchWith({sheet: {job: 'intonation'}}))).toBe(true);
});

describe('the picture', () => {
	const frame = (width: number) =>
		render(<Panel bench={bench([way('together'), ...allRead])} width={width} height={8} />)
			.lastFrame()!
			.split('\n');

	test('shows where each saddle is and which way it goes', () => {
		const [, first, second, , fourth] = frame(78);
		expect(first).toMatch(/^1 E4 .*\+0\.5 {2}0\.19 mm back$/);
		expect(second!.indexOf('#')).toBeLessThan(second!.lastIndexOf('o'));
		expect(fourth!.indexOf('o')).toBeLessThan(fourth!.indexOf('#'));
	});

	test.each([44, 60, 100])('stays within %i columns', width => {
		expect(Math.max(...frame(width).map(line => line.length))).toBeLessThanOrEqual(width);
	});
});
