import {render} from 'ink-testing-library';
import {describe, expect, test} from 'vitest';
import type {StringNumber} from '../../source/music/string-number.ts';
import type {SaddlePlan} from '../../source/planning/saddle-plan.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {intonate} from '../../source/stages/intonate/index.ts';
import {Panel} from '../../source/stages/intonate/panel.tsx';
import {allInTune, benchWith, deedsOf, entered, keyOf, type Pinned, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const way = (value: 'all-at-once' | 'string-by-string' | 'blocked'): Deed => ({
	type: 'WayChosen',
	choice: 'intonation',
	value,
});
const slack = (...strings: StringNumber[]): Deed[] => strings.map(string => ({type: 'StringSlackened', string}));
const moved = (string: StringNumber, travelMm: number): Deed => ({type: 'SaddleMoved', string, travelMm});

/** What the plan says of each saddle; strings not named are to be left. */
type Plans = {readonly [S in StringNumber]?: Partial<SaddlePlan>};

const leave: SaddlePlan = {
	step: {kind: 'leave', why: 'within-tolerance'},
	errorCents: {mean: 0.4, sd: 0.5},
	travelMm: {mean: 0.15, sd: 0.2},
	reach: {kind: 'reachable', hole: 'front', changesHole: false, chance: 1},
	expectedCents: {mean: 0, sd: 0.6},
	chanceWithin: {now: 0.99, after: 0.99},
	resolvableCents: 1.2,
};
const toRead: Partial<SaddlePlan> = {step: {kind: 'read', plucks: 2, why: 'never-read'}};
const toMove = (travelMm: number, errorCents: number): Partial<SaddlePlan> => ({
	step: {kind: 'move', travelMm},
	travelMm: {mean: travelMm, sd: 0.2},
	errorCents: {mean: errorCents, sd: 0.5},
	expectedCents: {mean: 0.1, sd: 0.6},
	chanceWithin: {now: 0.01, after: 0.97},
});

function bench(deeds: readonly Deed[], plans: Plans = {}, pinned: Pinned = {}) {
	const rows = Object.fromEntries(
		six.map(string => {
			const saddle = {...leave, ...plans[string]};
			return [
				string,
				{saddle, intonationCents: saddle.errorCents, saddleMoveMm: saddle.travelMm, ...pinned.rows?.[string]},
			];
		}),
	);
	return benchWith({tuning: allInTune, ...pinned, deeds: [opened, ...deeds], rows});
}

describe('the way', () => {
	test('is chosen first with its cost, all at once on a support being what Enter takes', () => {
		const task = intonate.task(bench([], Object.fromEntries(six.map(string => [string, toRead]))));
		expect(task.headline).toMatch(/Choose how the saddles/);
		expect(task.how![0]).toMatch(
			/^1 all at once, the bridge on a support.*about \d+ adjustments if all are off, slack once$/,
		);
		expect(task.how![3]).toMatch(/change over at any time/);
		expect(entered(task)).toEqual([way('blocked')]);
		expect(deedsOf(typed(intonate, '2', bench([])))).toEqual([way('string-by-string')]);
		expect(deedsOf(typed(intonate, '3', bench([])))).toEqual([way('all-at-once')]);
		expect(typed(intonate, '4', bench([]))).toMatchObject({kind: 'refused'});
	});

	test('string by string costs more than on a support, all at once floating most', () => {
		const costs = intonate
			.task(bench([], {1: toMove(1, 3), 2: toMove(1, 3), 3: toMove(1, 3)}))
			.how!.slice(0, 3)
			.map(line => Number(/about (\d+)/.exec(line)![1]));
		expect(costs[1]).toBeGreaterThan(costs[0]!);
		expect(costs[2]).toBeGreaterThan(costs[1]!);
	});

	test('one key asks again at any time, with the cost from here', () => {
		const does = keyOf(intonate, 'z', bench([way('all-at-once')], {2: toMove(1, 3)}))!.does;
		if (does.kind !== 'deeds') throw new Error('expected facts');
		const again = intonate.task(bench([way('all-at-once'), ...does.deeds], {2: toMove(1, 3)}));
		expect(again.how![0]).toMatch(/adjustments from here/);
	});
});

describe('reading', () => {
	const start = [way('all-at-once')];
	const unread = Object.fromEntries(six.map(string => [string, toRead]));

	test('harmonic, then fretted 12th, in turns until the plan has enough', () => {
		const first = intonate.task(bench(start, unread));
		expect(first.headline).toBe('Sound the 12th-fret harmonic of string 1 (E4).');
		expect(first.practice).toEqual({kind: 'pluck', string: 1, how: 'harmonic'});
		const second = intonate.task(bench([...start, read(1, 0.5, 'harmonic')], unread));
		expect(second.headline).toBe('Press string 1 (E4) at the 12th fret and pluck it.');
		expect(second.practice).toEqual({kind: 'pluck', string: 1, how: 'fretted', fret: 12});
		const more = {1: {step: {kind: 'read', plucks: 1, why: 'too-close-to-call'}}} as const;
		const pair = [...start, read(1, 0.5, 'harmonic'), read(1, 2, 'fretted')];
		expect(intonate.task(bench(pair, more)).why).toMatch(/Too close to call/);
		const out = {1: {...more[1], chanceWithin: {now: 0.001, after: 0.99}}} as const;
		expect(intonate.task(bench(pair, out)).why).toMatch(/^It must be moved; .* the distance is taken from more/);
		expect(intonate.task(bench([...pair, read(1, 0, 'harmonic')], more)).headline).toMatch(
			/^Lift the finger, press string 1/,
		);
		expect(intonate.task(bench(pair, {...unread, 1: leave})).headline).toMatch(/harmonic of string 2/);
	});

	test('what is typed is stored as sounded, repeated plucks each', () => {
		expect(deedsOf(typed(intonate, '+1 +0.5 +1.5', bench(start, unread)))).toMatchObject([
			{type: 'PitchRead', string: 1, how: 'harmonic', cents: 1},
			{how: 'harmonic', cents: 0.5},
			{how: 'harmonic', cents: 1.5},
		]);
	});

	test('a harmonic read before something was turned is read again', () => {
		const deeds: Deed[] = [...start, read(1, 0.5, 'harmonic'), {type: 'PegTurned', string: 4}];
		expect(intonate.task(bench(deeds, unread)).headline).toMatch(/harmonic of string 1/);
	});

	test('another string can be taken first, and both its readings come before the others', () => {
		const taken = deedsOf(typed(intonate, '4:', bench(start, unread)));
		expect(intonate.task(bench([...start, ...taken], unread)).headline).toMatch(/harmonic of string 4/);
		const half = bench([...start, ...taken, read(4, 0, 'harmonic')], unread);
		expect(intonate.task(half).headline).toMatch(/Press string 4/);
	});

	test('the open string plucked in place of the fretted one is asked about', () => {
		const answer = typed(intonate, '329.6 hz', bench([...start, read(1, 0, 'harmonic')], unread));
		expect(answer).toMatchObject({kind: 'question', said: expect.stringMatching(/open string/)});
	});

	test.each(['', 'sharp', '1O'])('%s is refused', text => {
		expect(typed(intonate, text, bench(start, unread))).toMatchObject({kind: 'refused'});
	});
});

describe('when readings contradict what should be', () => {
	const check = (cause: 'crept' | 'slipped' | 'bent', how: 'measure-saddle' | 'harmonic-again' | 'press-lightly') =>
		bench([way('all-at-once'), read(3, 0, 'harmonic'), read(3, 6, 'fretted')], {
			3: {step: {kind: 'check', cause, chance: 0.71, check: how}},
		});

	test('a bent note is pressed again, lightly', () => {
		const task = intonate.task(check('bent', 'press-lightly'));
		expect(task.headline).toBe('Press string 3 (G3) lightly at the 12th fret, straight down, and pluck it.');
		expect(task.why).toMatch(/perhaps the string was bent sideways.*71 %/);
		expect(task.practice).toEqual({kind: 'pluck', string: 3, how: 'fretted', fret: 12});
	});

	test('a string that slipped shows in its harmonic', () => {
		expect(intonate.task(check('slipped', 'harmonic-again')).headline).toMatch(/harmonic of string 3 \(G3\) once more/);
	});

	test('a saddle that crept is measured', () => {
		const crept = check('crept', 'measure-saddle');
		expect(intonate.task(crept).practice).toEqual({kind: 'measure-saddle', string: 3});
		expect(intonate.task(crept).why).toMatch(/crept towards the neck; tighten its screw/);
		expect(deedsOf(typed(intonate, '3.2', crept))).toEqual([{type: 'SaddleMeasured', string: 3, positionMm: 3.2}]);
		expect(typed(intonate, '300', crept)).toMatchObject({kind: 'refused'});
	});

	test('a ruler is asked for once; then only the notes can tell', () => {
		const plan = {3: {step: {kind: 'check', cause: 'crept', chance: 0.71, check: 'measure-saddle'}}} as const;
		const measured: Deed = {type: 'SaddleMeasured', string: 3, positionMm: 3.2};
		const task = intonate.task(bench([way('all-at-once'), measured], plan));
		expect(task.practice).toEqual({kind: 'pluck', string: 3, how: 'harmonic'});
		const moved: Deed[] = [...slack(3), {type: 'SaddleMoved', string: 3, travelMm: 1}];
		expect(intonate.task(bench([way('all-at-once'), measured, ...moved], plan)).practice).toEqual({
			kind: 'measure-saddle',
			string: 3,
		});
	});

	test('a fretted note far from the one before is asked about', () => {
		const again = bench([way('all-at-once'), read(1, 0, 'harmonic'), read(1, -4, 'fretted'), read(1, 0, 'harmonic')], {
			1: toRead,
		});
		expect(typed(intonate, '+45', again)).toMatchObject({
			kind: 'question',
			said: expect.stringMatching(/Expected −4\.0/),
		});
		expect(typed(intonate, '-4.5', again)).toMatchObject({kind: 'deeds'});
	});

	test('a suspicion that is not worth a check is still named at the move', () => {
		const plans = {3: {...toMove(1, 3), suspicion: {cause: 'crept', chance: 0.6, check: 'measure-saddle'}}} as const;
		const task = intonate.task(bench([way('all-at-once'), ...slack(3)], plans));
		expect(task.how!.join('\n')).toMatch(/fits the readings best: the saddle crept.*60 %/);
	});
});

describe('travel', () => {
	const start = [way('all-at-once')];

	test('a place too little known is measured before anything is slackened', () => {
		const task = intonate.task(bench(start, {2: {step: {kind: 'measure-place'}}}));
		expect(task.headline).toMatch(/^Measure how far the saddle of string 2/);
		expect(task.why).toMatch(/depends on where it is/);
	});

	test('another threaded hole is said and stored with the move', () => {
		const reach = {kind: 'reachable', hole: 'back', changesHole: true, chance: 0.98} as const;
		const plans = {2: {...toMove(3, 8), reach}};
		expect(intonate.task(bench(start, plans)).how).toEqual([
			'Saddle moves to come: 2: 3.00 mm back.',
			'String 2: with the screw in the back hole.',
		]);
		expect(entered(intonate.task(bench([...start, ...slack(2)], plans)))).toEqual([
			{type: 'SaddleMoved', string: 2, travelMm: 3, hole: 'back'},
		]);
	});

	test('out of travel: the end is the best to be had, and it is said so', () => {
		const plans: Plans = {2: {...toMove(0, 8), step: {kind: 'out-of-travel', travelMm: 1.5}}};
		expect(intonate.task(bench(start, plans)).how).toEqual([
			'Saddle moves to come: 2: 1.50 mm back.',
			'String 2: the end of its travel, the best to be had here.',
		]);
	});

	test('a saddle that stands at its end is left', () => {
		const plans: Plans = {2: {...toMove(0, 8), step: {kind: 'out-of-travel', travelMm: 0}}};
		expect(intonate.isDone(bench(start, plans))).toBe(true);
		expect(intonate.task(bench(start, plans)).why).toMatch(/Worst is string 2 \(B3\), 8\.0 cents sharp/);
	});
});

describe('all in one slack period', () => {
	const start = [way('all-at-once')];
	const plans: Plans = {2: toMove(1.87, 5), 4: toMove(-1.5, -4), 6: toMove(3, 8)};

	test('those to be moved are slackened together, distances said before', () => {
		const task = intonate.task(bench(start, plans));
		expect(task.headline).toBe('Slacken strings 2, 4 and 6 until loose, saddle screws still tight.');
		expect(task.act).toEqual({kind: 'slacken', strings: [2, 4, 6]});
		expect(entered(task)).toEqual(slack(2, 4, 6));
		expect(task.how![0]).toBe('Saddle moves to come: 2: 1.87 mm back, 4: 1.50 mm forward, 6: 3.00 mm back.');
		expect(task.why).toMatch(/do not chase/);
	});

	test('some of them can be named; the rest stay as they are', () => {
		expect(deedsOf(typed(intonate, '2 6', bench(start, plans)))).toEqual([
			{type: 'ItemTicked', item: 'intonation of string 4 left as it is', done: true},
			...slack(2, 6),
		]);
		expect(typed(intonate, '1 2', bench(start, plans))).toMatchObject({kind: 'refused'});
	});

	test('then each saddle is moved on its slack string', () => {
		const task = intonate.task(bench([...start, ...slack(2, 4, 6)], plans));
		expect(task.headline).toBe('Move the saddle of string 2 (B3) 1.87 mm back, away from the neck.');
		expect(task.why).toMatch(/5\.0 cents sharp of the harmonic/);
		expect(task.how!.join('\n')).toMatch(/Expected afterwards: \+0\.1 ±1\.0 cents.*97 %/);
		expect(entered(task)).toEqual([moved(2, 1.87)]);
		expect(task.cautions!.join(' ')).toMatch(/slack before its saddle screw/);
		const next = bench([...start, ...slack(2, 4, 6), moved(2, 1.87)], {...plans, 2: toRead});
		expect(intonate.task(next).headline).toBe('Move the saddle of string 4 (D3) 1.50 mm forward, towards the neck.');
	});

	test.each([
		['1.2', 1.2],
		['0.15 forward', -0.15],
		['1/16 in', 1.5875],
	])('what was really moved can be typed: %s', (text, travelMm) => {
		expect(deedsOf(typed(intonate, text, bench([...start, ...slack(2, 4, 6)], plans)))).toEqual([
			{type: 'SaddleMoved', string: 2, travelMm: expect.closeTo(travelMm, 6)},
		]);
	});

	const afterMoves = [...start, ...slack(2, 4, 6), moved(2, 1.87), moved(4, -1.5), moved(6, 3)];
	const unproved: Plans = {2: toRead, 4: toRead, 6: toRead};

	test('then one guided pass', () => {
		expect(intonate.task(bench(afterMoves, unproved, {tuning: turn(6, 40)})).headline).toMatch(/^Turn string 6/);
	});

	test('then only the moved ones are read again', () => {
		const task = intonate.task(bench(afterMoves, unproved));
		expect(task.headline).toMatch(/harmonic of string 2/);
		const half = bench([...afterMoves, read(2, 0, 'harmonic')], unproved);
		expect(intonate.task(half).why).toMatch(/one move should have done it/);
		expect(intonate.isDone(bench(afterMoves))).toBe(true);
		expect(entered(intonate.task(bench(afterMoves)))).toEqual([{type: 'StagePassed', stage: 'intonate'}]);
	});

	test('nothing is read while strings hang slack: a plan in doubt about another string waits', () => {
		const doubt = bench([...start, ...slack(2), moved(2, 1.87)], {2: toRead, 5: toRead}, {tuning: turn(2, 10)});
		expect(intonate.task(doubt).headline).toMatch(/^Turn string 2/);
	});

	test('the facts of the whole way are allowed by the rules of the bench', () => {
		expect(decide([opened, ...afterMoves], stateOf(benchWith().story)).ok).toBe(true);
	});
});

describe('with the bridge blocked', () => {
	const start = [way('blocked')];
	const plans: Plans = {2: toMove(1.87, 5)};
	const support: Deed = {type: 'SupportPlaced'};

	test('the support goes in before anything is slackened, and two strings tell how it holds', () => {
		expect(entered(intonate.task(bench(start, plans)))).toEqual([support]);
		expect(intonate.task(bench([...start, support], plans)).headline).toMatch(/^Pluck string 3/);
		const probed = [...start, support, read(3, 0)];
		expect(intonate.task(bench(probed, plans)).headline).toMatch(/^Pluck string 6/);
		expect(intonate.task(bench([...probed, read(6, 0)], plans)).headline).toMatch(/^Slacken string 2/);
	});

	describe('the hold', () => {
		const floating = [read(3, 0), read(6, 0), ...start];
		const lifted = [...floating, support, read(3, -9), read(6, -7)];
		const how = (deeds: readonly Deed[]) => (intonate.task(bench(deeds, plans)).how ?? []).join('\n');

		test('is told from what both probes did when the support went in', () => {
			expect(how([...floating, support, read(3, 0.4), read(6, -0.3)])).toMatch(/where it floats/);
			expect(how(lifted)).toMatch(/lifts the tail\. Make it thinner, then j/);
		});

		test('a support made thinner is probed anew, and judged by that', () => {
			const does = keyOf(intonate, 'j', bench(lifted, plans))?.does;
			const changed = [...lifted, ...(does?.kind === 'deeds' ? does.deeds : [])];
			expect(changed.slice(-2).map(({type}) => type)).toEqual(['SupportRemoved', 'SupportPlaced']);
			expect(intonate.task(bench(changed, plans)).headline).toMatch(/^Pluck string 3/);
			expect(how([...changed, read(3, 0.2), read(6, -0.4)])).toMatch(/where it floats/);
			expect(how([...changed, read(3, -5), read(6, -4)])).toMatch(/lifts the tail/);
			expect(how([...changed, read(3, 6), read(6, 4)])).toMatch(/lets the tail down/);
		});

		test('a level one is not offered to be changed', () => {
			const level = bench([...floating, support, read(3, 0.4), read(6, -0.3)], plans);
			expect(intonate.keys(level, intonate.task(level)).map(({key}) => key)).not.toContain('j');
		});
	});

	test('it comes out when all are up again, before anything is proved', () => {
		const done = [...start, support, read(3, 0), read(6, 0), ...slack(2), moved(2, 1.87)];
		expect(intonate.task(bench(done, {2: toRead}, {tuning: turn(2, 0)})).headline).toMatch(/^Turn string 2/);
		const task = intonate.task(bench([...done, {type: 'PegTurned', string: 2}, read(2, 0)], {2: toRead}));
		expect(entered(task)).toEqual([{type: 'SupportRemoved'}]);
		expect(task.act).toEqual({kind: 'unsupport'});
	});

	describe('off together once it is out', () => {
		const due = {string: 6, toCents: -0.4, turns: -1 / 32} as const;
		const out = [...start, support, ...slack(2), moved(2, 1.87), {type: 'SupportRemoved'} as const];
		const pinned: Pinned = {tuning: turn(3, 0), bench: {clawByEar: () => due}};
		const together = bench(out, {}, pinned);

		test('the claw is turned until one string is right, and what the tuner shows is kept', () => {
			const task = intonate.task(together);
			expect(task.headline).toBe('Turn both claw screws looser until string 6 (E2) shows −0.4 cents.');
			expect(task.how?.[0]).toBe('About a hair looser: both alike, a touch at a time in turn, and pluck between.');
			expect(deedsOf(typed(intonate, '0.2', together))).toMatchObject([
				{type: 'ClawTurned', trebleTurns: -1 / 32, bassTurns: -1 / 32, until: {string: 6, cents: -0.4}},
				{type: 'PitchRead', string: 6, cents: 0.2},
			]);
		});

		test('one key leaves it to the pegs', () => {
			const does = keyOf(intonate, 'j', together)?.does;
			const refused = does?.kind === 'deeds' ? does.deeds : [];
			expect(intonate.task(bench([...out, ...refused], {}, pinned)).headline).toMatch(/^Turn string 3/);
		});

		test('not behind clamped blocks, before a saddle was moved, with a support in, or in another way', () => {
			const before = [...start, support, {type: 'SupportRemoved'} as const];
			const others = [[...out, {type: 'NutClamped'} as const], before, [...out, support], [...out, way('all-at-once')]];
			for (const deeds of others) expect(intonate.task(bench(deeds, {}, pinned)).practice?.kind).not.toBe('claw-until');
		});
	});
});

describe('string by string', () => {
	test('each is proved before the next is read', () => {
		const start = [way('string-by-string')];
		const rest: Plans = {3: toRead, 4: toRead, 5: toRead, 6: toRead};
		expect(intonate.task(bench(start, {...rest, 2: toMove(1.87, 5)})).headline).toMatch(/^Slacken string 2/);
		const after = [...start, ...slack(2), moved(2, 1.87)];
		const up: readonly Deed[] = [...after, {type: 'PegTurned', string: 2}, read(2, 0)];
		expect(intonate.task(bench(after, {...rest, 2: toRead}, {tuning: turn(2, 3)})).headline).toMatch(/^Turn string 2/);
		expect(intonate.task(bench(up, {...rest, 2: toRead})).headline).toMatch(/harmonic of string 2/);
		expect(intonate.task(bench(up, rest)).headline).toMatch(/harmonic of string 3/);
	});

	test('those looked at before another hung slack are looked at once more, the last one not', () => {
		const both = (string: StringNumber): Deed[] => [read(string, 0, 'harmonic'), read(string, 0.3, 'fretted')];
		const others = [1, 2, 3, 4, 5].flatMap(string => both(string as StringNumber));
		const last: readonly Deed[] = [...slack(6), moved(6, 1.87), {type: 'PegTurned', string: 6}, read(6, 0), ...both(6)];
		const story = [way('string-by-string'), ...others, ...last];
		expect(intonate.task(bench(story)).headline).toMatch(/harmonic of string 1/);
		expect(intonate.isDone(bench(story))).toBe(false);
		expect(intonate.task(bench([...story, read(1, 0, 'harmonic')])).headline).toMatch(/ress string 1/);
		expect(intonate.task(bench([...story, ...both(1)])).headline).toMatch(/harmonic of string 2/);
		expect(intonate.isDone(bench([...story, ...others]))).toBe(true);
		// In the other ways nothing hangs slack after the last look.
		expect(intonate.isDone(bench([way('blocked'), ...others, ...last]))).toBe(true);
	});
});

describe('close enough', () => {
	test('below what the tuner can tell, it says so', () => {
		const fine = bench([way('all-at-once')], {4: {...leave, errorCents: {mean: 0.5, sd: 0.6}}});
		expect(intonate.task(fine).why).toMatch(/within what your tuner can tell.*No string needed its saddle moved/);
	});

	test.each(['reading', 'slackening', 'moving'] as const)(
		'one key leaves a string as it is when %s is asked',
		stage => {
			const deeds = [way('all-at-once'), ...(stage === 'moving' ? slack(6) : [])];
			const plans: Plans = {6: stage === 'reading' ? toRead : toMove(3, 8)};
			const does = keyOf(intonate, 'i', bench(deeds, plans))!.does;
			if (does.kind !== 'deeds') throw new Error('expected facts');
			expect(intonate.isDone(bench([...deeds, ...does.deeds], plans))).toBe(true);
		},
	);
});

test('new strings of the same kind do not need it', () => {
	expect(intonate.isNeeded(benchWith({sheet: {job: 'restring'}}))).toBe(false);
	expect(intonate.isNeeded(benchWith({sheet: {job: 'intonation'}}))).toBe(true);
});

describe('the picture', () => {
	const plans: Plans = {2: toMove(1.87, 5), 4: toMove(-1.5, -4)};
	const frame = (width: number) =>
		render(<Panel bench={bench([way('all-at-once')], plans)} width={width} height={8} />)
			.lastFrame()!
			.split('\n');

	test('shows where each saddle is and which way it goes', () => {
		const [, first, second, , fourth] = frame(78);
		expect(first).toMatch(/^1 E4 .*\+0\.4 {2}0\.15 mm back$/);
		expect(second!.indexOf('%')).toBeLessThan(second!.lastIndexOf('o'));
		expect(fourth!.indexOf('o')).toBeLessThan(fourth!.indexOf('%'));
	});

	test.each([44, 60, 100])('stays within %i columns', width => {
		expect(Math.max(...frame(width).map(line => line.length))).toBeLessThanOrEqual(width);
	});
});

describe('what was heard to the first partials', () => {
	const misled = {ears: {cents: 0.6, tunerCents: 5.1, astrayMm: 1.66}};
	const heardWell = {ears: {cents: 0.6, tunerCents: 2.4, astrayMm: 0.66}};
	const how = (deeds: readonly Deed[], plan: Partial<SaddlePlan> & object) =>
		intonate.task(bench([way('all-at-once'), ...deeds], {3: plan})).how!.join('\n');
	const said =
		'Heard to the first partials it is +0.6; a tuner that follows the sound’s period would show +5.1 cents and set the saddle 1.66 mm back of its place.';

	test('is told beside what a tuner would show, where the tolerance cannot bear the difference', () => {
		expect(how([], {...toRead, ...misled})).toContain(said);
		expect(how([], {...toMove(1.2, 3), ...misled})).toContain(said);
		expect(how(slack(3), {...toMove(1.2, 3), ...misled})).toContain(said);
		expect(how([], misled)).toContain(said);
	});

	test('and left unsaid where it can, or where nothing was heard', () => {
		expect(how([], {...toRead, ...heardWell})).not.toContain('period');
		expect(how([], toRead)).not.toContain('period');
	});
});
