import {describe, expect, test} from 'vitest';
import type {Deed} from '../../source/session/facts.ts';
import {balance} from '../../source/stages/balance/index.ts';
import {tune} from '../../source/stages/tune/index.ts';
import {benchWith, deedsOf, entered, keyOf, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const chosen = (value: string): Deed => ({type: 'WayChosen', choice: 'tuning', value});
const allAt = (mean: number) => Object.fromEntries([1, 2, 3, 4, 5, 6].map(string => [string, {now: {mean, sd: 1}}]));
const placed: Deed = {type: 'SupportPlaced', tailMm: 0};
const out: Deed = {type: 'SupportRemoved'};
const due = {string: 6, toCents: -0.4, turns: -0.375} as const;

describe('every string far off', () => {
	const far = benchWith({deeds: [opened], tuning: turn(3, 300), rows: allAt(-200)});

	test('two ways are offered, with about how many turns each takes', () => {
		const task = tune.task(far);
		expect(task.headline).toBe('Every string is far off. Choose how to bring them back.');
		expect(task.how).toEqual([
			'1 support under the level bridge until all are at pitch: about 8 turns in all',
			'2 bridge left floating, each string set with the others in mind: about 12 turns in all',
		]);
		expect(deedsOf(typed(tune, '2', far))).toEqual([chosen('floating')]);
	});

	test('not with strings near pitch, one unheard, new ones, a peg turned before, or a support in', () => {
		const near = benchWith({deeds: [opened], tuning: turn(3, 30), rows: allAt(-40)});
		const unheard = benchWith({
			deeds: [opened],
			tuning: turn(3, 300),
			rows: {...allAt(-200), 2: {now: undefined}},
		});
		const others = [
			[{type: 'StringFitted', string: 2}],
			[{type: 'PegTurned', string: 2}],
			[{type: 'SupportPlaced'}],
		].map(deeds => benchWith({deeds: [opened, ...(deeds as Deed[])], tuning: turn(3, 300), rows: allAt(-200)}));
		for (const bench of [near, unheard, ...others])
			expect(tune.task(bench).headline).not.toMatch(/Every string is far off/);
	});

	test('the support is made for the wished height of the tail', () => {
		const bench = benchWith({deeds: [opened, chosen('support')], tuning: turn(3, 300), rows: allAt(-200)});
		expect(tune.task(bench).headline).toBe('Bring the plate level and put a support under it.');
		expect(tune.task(bench).enter?.deeds).toEqual([placed]);
		expect(tune.isDone(bench)).toBe(false);
		const high = benchWith({
			deeds: [opened, chosen('support')],
			sheet: {plateWishMm: 1.5},
			tuning: turn(3, 300),
			rows: allAt(-200),
		});
		expect(tune.task(high).headline).toMatch(/1\.50 mm high/);
		expect(tune.task(high).enter?.deeds).toEqual([{type: 'SupportPlaced', tailMm: 1.5}]);
	});

	test('on it strings are set to pitch and not only near it, and without a string known to listen to it comes out as it is', () => {
		const deeds = [opened, chosen('support'), placed];
		const close = benchWith({deeds, tuning: turn(5, 0), rows: {...allAt(0), 5: {now: {mean: 6, sd: 0.5}}}});
		expect(tune.task(close).headline).toMatch(/Turn string 5/);
		const set = benchWith({
			deeds,
			tuning: {kind: 'done', worst: {string: 1, error: {mean: 0.4, sd: 0.3}}, probability: 0.98},
			rows: allAt(0),
			plate: {turnsBeforeRelease: {mean: 1.5, sd: 1}},
		});
		expect(tune.task(set).headline).toBe('Take the support out from under the bridge.');
	});
});

describe('all strings at pitch on the support', () => {
	const done = {kind: 'done', worst: {string: 1, error: {mean: 0.4, sd: 0.3}}, probability: 0.98} as const;
	const lift = {string: 6, toCents: 0, turns: 1.25, from: 'rising'} as const;
	const deeds = [opened, chosen('support'), placed];
	const held = (more: Parameters<typeof benchWith>[0] = {}) =>
		benchWith({deeds, tuning: done, rows: allAt(-0.3), bench: {clawLift: () => lift}, ...more});

	test('the claw frees the bridge: turned until a string stirs, and only then is the support out', () => {
		const task = tune.task(held());
		expect(task.headline).toBe('Turn both claw screws tighter until string 6 (E2) just begins to rise.');
		expect(task.how?.join(' ')).toMatch(/keeps it from rising.*shows −0\.3 now.*looser.*About 1 1\/4 turns tighter/);
		expect(entered(task)).toEqual([
			{type: 'ClawTurned', trebleTurns: 1.25, bassTurns: 1.25, until: {string: 6, cents: 0, from: 'rising'}},
			out,
		]);
		expect(task.practice).toEqual({kind: 'deeds', deeds: entered(task)});
		expect(tune.isDone(held())).toBe(false);
	});

	test('where the springs win it is the other way', () => {
		const falling = {...lift, turns: -1, from: 'falling'} as const;
		const task = tune.task(held({bench: {clawLift: () => falling}}));
		expect(task.headline).toBe('Turn both claw screws looser until string 6 (E2) just begins to fall.');
	});

	test('one key takes the support out with the claw as it is', () => {
		const key = keyOf(tune, 'j', held())!;
		expect(key.label).toBe('out as it is');
		if (key.does.kind !== 'deeds') throw new Error('expected facts');
		const task = tune.task(held({deeds: [...deeds, ...key.does.deeds]}));
		expect(task.headline).toBe('Take the support out from under the bridge.');
	});

	test('a number typed there is refused with what would do, and nothing is taken for claw turns', () => {
		expect(typed(tune, '3/8', held())).toMatchObject({kind: 'refused'});
	});

	test('not where springs must be changed first, nor under a support that was made for no height', () => {
		const short = held({plate: {springs: {kind: 'add', springs: 4} as never}});
		const other = held({deeds: [opened, {type: 'SupportPlaced'}]});
		for (const each of [short, other]) expect(tune.task(each).headline).not.toMatch(/begins to rise/);
	});
});

describe('let go, all strings off together', () => {
	const all = (cents: number) => ([1, 2, 3, 4, 5, 6] as const).map(string => read(string, cents));
	const deeds = [opened, chosen('support'), placed, ...all(0), out, ...all(-15)];

	test('every string is heard first', () => {
		const unheard = benchWith({
			deeds: deeds.slice(0, -2),
			tuning: turn(3, 20),
			rows: allAt(-15),
			bench: {clawByEar: () => due},
		});
		expect(tune.task(unheard).headline).toBe('Pluck string 5 (A2), do not turn it.');
		expect(tune.isDone(unheard)).toBe(false);
	});

	const bench = benchWith({deeds, tuning: turn(3, 20), rows: allAt(-15), bench: {clawByEar: () => due}});

	test('both claw screws are turned until one string is right', () => {
		const task = tune.task(bench);
		expect(task.headline).toBe('Turn both claw screws looser until string 6 (E2) shows −0.4 cents.');
		expect(task.how?.[0]).toMatch(/3\/8/);
		expect(task.act).toEqual({kind: 'claw', turns: -0.375});
		expect(tune.isDone(bench)).toBe(false);
	});

	test('what the tuner shows is kept as a turn of the claw and a reading', () => {
		expect(deedsOf(typed(tune, '0.2', bench))).toEqual([
			{type: 'ClawTurned', trebleTurns: -0.375, bassTurns: -0.375, until: {string: 6, cents: -0.4}},
			{type: 'PitchRead', string: 6, how: 'open', cents: 0.2, entered: '0.2'},
		]);
	});

	test('another string typed there is only plucked', () => {
		expect(deedsOf(typed(tune, '3: -12', bench))).toMatchObject([{type: 'PitchRead', string: 3, cents: -12}]);
	});

	test('not behind clamped blocks, nor where turns of the claw are not enough', () => {
		const pinned = {tuning: turn(3, 20), rows: allAt(-15), bench: {clawByEar: () => due}};
		const locked = benchWith({...pinned, deeds: [...deeds, {type: 'NutClamped'}]});
		const short = benchWith({...pinned, deeds, plate: {springs: {kind: 'add', springs: 4} as never}});
		for (const each of [locked, short]) expect(tune.task(each).practice?.kind).toBe('turn');
	});

	test('after two led turns from one support what is off is left to the pegs', () => {
		const led = (from?: 'rising'): Deed => ({
			type: 'ClawTurned',
			trebleTurns: 0.25,
			bassTurns: 0.25,
			until: {string: 6, cents: 0, ...(from ? {from} : {})},
		});
		const pinned = {tuning: turn(3, 20), rows: allAt(-15), bench: {clawByEar: () => due}};
		const freed = [opened, chosen('support'), placed, ...all(0), led('rising'), out, ...all(-3)];
		expect(tune.task(benchWith({...pinned, deeds: freed})).practice?.kind).toBe('claw-until');
		const again = [...freed, led(), ...all(-3)];
		expect(tune.task(benchWith({...pinned, deeds: again})).practice?.kind).toBe('turn');
	});

	test('one key leaves it to the pegs', () => {
		const key = keyOf(tune, 'j', bench)!;
		expect(key.does).toMatchObject({kind: 'deeds', deeds: [{type: 'WayChosen', choice: 'claw by ear', value: 'pegs'}]});
		const refused: Deed = {type: 'WayChosen', choice: 'claw by ear', value: 'pegs'};
		const pegs = benchWith({
			deeds: [...deeds, refused],
			tuning: turn(3, 20),
			rows: allAt(-15),
			bench: {clawByEar: () => due},
		});
		expect(tune.task(pegs).headline).toMatch(/Turn string 3/);
	});

	test('a bridge that was left floating is never led by the claw', () => {
		const floating = benchWith({
			deeds: [opened, chosen('floating')],
			tuning: turn(3, 20),
			rows: allAt(-15),
			bench: {clawByEar: () => due},
		});
		expect(tune.task(floating).practice?.kind).not.toBe('claw-until');
	});
});

describe('from balancing', () => {
	const bold = {
		bySide: {trebleTurns: -1.5, bassTurns: -1.5, twist: 'alike', twistM: 0},
		clawTurns: {mean: -1.5, sd: 0.2},
		springs: {kind: 'turns-will-do'},
		isSecondLookDue: false,
		isArmWanted: false,
		isTurnWorth: true,
		verdict: 'off',
	} as never;
	const measured: Deed = {type: 'PlateMeasured', tailMm: 2.4, entered: '2.4'};

	const bench = benchWith({deeds: [opened, measured], tuning: turn(5, -20), plate: bold, rows: allAt(10)});

	test('before a bold turn the two ways are offered with what each takes, and the support opens tuning again', () => {
		const task = balance.task(bench);
		expect(task.headline).toMatch(/^The plate ends .* at pitch, wanted is level: choose a way\.$/);
		expect(task.how).toEqual([
			'1 hold the bridge as wished, set every string once, free it with the claw by ear: about 8 turns',
			'2 turn the claw by calculation, then tune with the bridge floating: about 14 turns',
		]);
		for (const deeds of [entered(task), deedsOf(typed(balance, '1', bench))]) {
			const after = benchWith({deeds: [opened, measured, ...deeds], tuning: turn(5, -20), rows: allAt(10)});
			expect(after.reopenedStage).toBe('tune');
			expect(tune.task(after).enter?.deeds).toEqual([placed]);
		}
		expect(typed(balance, '3', bench)).toMatchObject({kind: 'refused'});
	});

	test('left floating the claw is turned by calculation, and one key still changes over', () => {
		const deeds = [opened, measured, ...deedsOf(typed(balance, '2', bench))];
		const left = benchWith({deeds, tuning: turn(5, -20), plate: bold, rows: allAt(10)});
		expect(balance.task(left).headline).toBe('Turn both claw screws 1 1/2 turns looser.');
		const key = keyOf(balance, 'w', left)!;
		expect(key.label).toBe('on a level support');
		const {does} = key;
		if (does.kind !== 'deeds') throw new Error(`expected facts, got ${does.kind}`);
		const after = benchWith({deeds: [...deeds, ...does.deeds], tuning: turn(5, -20), rows: allAt(10)});
		expect(after.reopenedStage).toBe('tune');
		expect(tune.task(after).enter?.deeds).toEqual([placed]);
	});

	test('a plate that stands askew wants its screws turned apart, which no string tells', () => {
		const askew = {
			...(bold as object),
			bySide: {trebleTurns: -1.5, bassTurns: -0.75, twist: 'unequal', twistM: 0.001},
		} as never;
		const twisted = benchWith({deeds: [opened, measured], tuning: turn(5, -20), plate: askew, rows: allAt(10)});
		expect(balance.task(twisted).headline).toMatch(/^Turn the treble claw screw/);
	});

	test('not for a small one', () => {
		const small = {
			...(bold as object),
			bySide: {trebleTurns: 0.25, bassTurns: 0.25, twist: 'alike', twistM: 0},
		} as never;
		const bench = benchWith({deeds: [opened, measured], tuning: turn(5, -20), plate: small, rows: allAt(10)});
		expect(keyOf(balance, 'w', bench)).toBeUndefined();
		expect(balance.task(bench).headline).toMatch(/^Turn both claw screws 1\/4/);
	});
});
