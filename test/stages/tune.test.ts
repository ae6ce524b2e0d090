import {describe, expect, test} from 'vitest';
import {stringsOf} from '../../source/music/string-number.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Deed} from '../../source/session/facts.ts';
import {tune} from '../../source/stages/tune/index.ts';
import {allInTune, benchWith, deedsOf, entered, keyOf, toRead, turn, typed} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const chosen = (choice: string, value: string): Deed => ({type: 'WayChosen', choice, value});
const expecting = (mean: number, sd = 1) => ({expectReading: () => ({mean, sd})});

describe('a string to be turned', () => {
	const bench = benchWith({deeds: [opened], tuning: turn(5, 23), rows: {5: {now: {mean: -14, sd: 2}}}});
	const task = tune.task(bench);

	test('is named with way and aim, and its forecast is asked for', () => {
		expect(task.headline).toBe('Turn string 5 (A2) up until your tuner shows +23 cents.');
		expect(task.act).toEqual({kind: 'turn', string: 5, toCents: 23});
		expect(task.practice).toEqual({kind: 'turn', string: 5, toCents: 23, by: 'peg'});
		expect(task.prompt).toBe('after turning string 5 (A2), tuner shows');
	});

	test('comes down when it stands above its aim', () => {
		const high = benchWith({deeds: [opened], tuning: turn(5, 23), rows: {5: {now: {mean: 40, sd: 2}}}});
		expect(tune.task(high).headline).toMatch(/down until/);
	});

	test('far from its note, the aim is also said as the tuner will name it', () => {
		// Two semitones less 12 cents above E2: F#2 12 cents flat.
		const far = benchWith({deeds: [opened], tuning: turn(6, 188)});
		expect(tune.task(far).headline).toContain('+188 cents (F#2 −12)');
	});

	test('is spelled with flats on a guitar tuned in flats', () => {
		const strings = ['Eb4', 'Bb3', 'Gb3', 'Db3', 'Ab2', 'Eb2'];
		const base = benchWith().sheet.strings.map((row, index) => ({...row, note: strings[index]!}));
		const far = benchWith({deeds: [opened], sheet: {strings: base}, tuning: turn(6, 288)});
		expect(tune.task(far).headline).toContain('(Gb2 −12)');
	});

	test('near its strength is turned only part of the way, and says why', () => {
		const gentle = tune.task(benchWith({deeds: [opened], tuning: turn(1, -30, 'strength')}));
		expect(gentle.headline).toMatch(/only to −30 cents for now/);
		expect(gentle.why).toMatch(/strain/);
	});

	test('a typed reading is a turn towards the aim and a reading', () => {
		expect(deedsOf(typed(tune, '+22', bench))).toEqual([
			{type: 'PegTurned', string: 5, untilCents: 23},
			{type: 'PitchRead', string: 5, how: 'open', cents: 22, entered: '+22'},
		]);
	});

	test('with the nut locked it is the fine tuner that turns', () => {
		const locked = benchWith({tuning: turn(5, 3)});
		expect(tune.task(locked).practice).toMatchObject({by: 'fine-tuner'});
		expect(deedsOf(typed(tune, '+3', locked))[0]).toEqual({type: 'FineTunerTurned', string: 5, untilCents: 3});
	});

	test('blocked, it says that no string moves another', () => {
		const blocked = benchWith({deeds: [opened, {type: 'SupportPlaced'}], tuning: turn(5, 0)});
		expect(tune.task(blocked).why).toMatch(/blocked: no string moves another/);
	});

	test('a reading of the other sign than the aim is asked about', () => {
		const answer = typed(tune, '-23', bench);
		if (answer.kind !== 'question') throw new Error(`expected a question, got ${answer.kind}`);
		expect(answer.deedsIfMeant).toMatchObject([
			{type: 'PegTurned', untilCents: 23},
			{type: 'PitchRead', cents: -23, meant: true},
		]);
	});

	test('another string is taken as only plucked', () => {
		expect(deedsOf(typed(tune, '3: -12', bench))).toMatchObject([{type: 'PitchRead', string: 3, cents: -12}]);
	});

	test('unless one key said that what comes next was turned', () => {
		const key = keyOf(tune, 't', bench)!;
		expect(key.label).toBe('I only pluck');
		const toggled = benchWith({
			deeds: [opened, chosen('next reading', 'turned')],
			tuning: turn(5, 23),
		});
		expect(deedsOf(typed(tune, '3: -12', toggled))).toMatchObject([
			{type: 'PegTurned', string: 3},
			{type: 'PitchRead', string: 3},
		]);
	});

	test('the same key makes the asked string only plucked, says so, and holds for one reading', () => {
		const deeds = [opened, chosen('next reading', 'plucked')];
		const plucked = benchWith({deeds, tuning: turn(5, 23)});
		expect(tune.task(plucked).prompt).toBe('only plucked string 5 (A2), tuner shows');
		expect(deedsOf(typed(tune, '-14', plucked)).map(({type}) => type)).toEqual(['PitchRead']);
		const after = benchWith({deeds: [...deeds, read(5, -14)], tuning: turn(5, 23)});
		expect(tune.task(after).prompt).toBe('after turning string 5 (A2), tuner shows');
	});
});

describe('a string to be read', () => {
	const bench = benchWith({deeds: [opened], tuning: toRead(3)});

	test('is plucked and not turned', () => {
		const task = tune.task(bench);
		expect(task.headline).toBe('Pluck string 3 (G3), do not turn it.');
		expect(task.act).toBeUndefined();
		expect(task.practice).toEqual({kind: 'pluck', string: 3, how: 'open'});
		expect(deedsOf(typed(tune, '-12', bench))).toMatchObject([{type: 'PitchRead', string: 3, cents: -12}]);
	});

	test.each([
		['never-read', /where it stands/],
		['uncertain', /moved it/],
		['teaches-most', /how your bridge answers/],
		['prove-result', /proves/],
		['surprise', /did not fit/],
	] as const)('reason %s is said in a beginner’s words', (why, words) => {
		expect(tune.task(benchWith({tuning: toRead(3, why)})).why).toMatch(words);
	});

	test('several plucks on one line are several facts', () => {
		expect(deedsOf(typed(tune, '-12 -11.5 -12.5', bench))).toHaveLength(3);
	});

	test('hertz and note names are understood', () => {
		expect(deedsOf(typed(tune, '196 hz', bench))).toMatchObject([{cents: expect.closeTo(0, 1)}]);
		expect(deedsOf(typed(tune, 'G3 -12', bench))).toMatchObject([{cents: -12}]);
	});

	test.each(['', '1O', 'loud', '9: -12', '99999'])('%s is refused and says what is allowed', text => {
		expect(typed(tune, text, bench)).toMatchObject({kind: 'refused', said: expect.stringMatching(/Allowed|Example/)});
	});

	test('an octave off is asked about', () => {
		expect(typed(tune, '+1200', bench)).toMatchObject({kind: 'question'});
		expect(deedsOf(typed(tune, '+1200', bench, true))).toMatchObject([{cents: 1200, meant: true}]);
	});

	test('slack is a fact of its own', () => {
		expect(deedsOf(typed(tune, 'slack', bench))).toEqual([{type: 'StringSlackened', string: 3}]);
	});
});

describe('a surprise', () => {
	const bench = benchWith({deeds: [opened], tuning: toRead(3), bench: expecting(-14, 2.4)});

	test('is asked about with what was expected, and how to say that the string slipped', () => {
		const answer = typed(tune, '+31', bench);
		if (answer.kind !== 'question') throw new Error(`expected a question, got ${answer.kind}`);
		expect(answer.said).toMatch(/31/);
		expect(answer.said).toMatch(/−14\.0 ±3\.9/);
		expect(answer.said).toMatch(/add an s: \+31 s/);
		expect(answer.deedsIfMeant).toMatchObject([{type: 'PitchRead', cents: 31, meant: true}]);
	});

	test('four standard deviations and more than eight cents are needed', () => {
		const sure = benchWith({deeds: [opened], tuning: toRead(3), bench: expecting(-14, 0.5)});
		expect(typed(tune, '-6.5', sure).kind).toBe('deeds');
		expect(typed(tune, '-5.5', sure).kind).toBe('question');
		const unsure = benchWith({deeds: [opened], tuning: toRead(3), bench: expecting(-14, 4)});
		expect(typed(tune, '+1', unsure).kind).toBe('deeds');
		expect(typed(tune, '+3', unsure).kind).toBe('question');
	});

	test.each(['+31 s', '+31s', '+31 slipped'])('%s: it slipped, and the reading stands', text => {
		expect(deedsOf(typed(tune, text, bench))).toMatchObject([
			{type: 'StringSlipped', string: 3},
			{type: 'PitchRead', string: 3, cents: 31, meant: true},
		]);
	});

	test('is not asked again of a string that was just turned', () => {
		const turned = benchWith({deeds: [opened], tuning: turn(3, 5), bench: expecting(-60, 1)});
		expect(typed(tune, '+5', turned).kind).toBe('deeds');
	});

	test('is not asked when the person meant it', () => {
		expect(deedsOf(typed(tune, '+31!', bench))).toMatchObject([{cents: 31, meant: true}]);
	});
});

describe('another string than the plan’s', () => {
	test('its number and a colon take it', () => {
		expect(deedsOf(typed(tune, '5:', benchWith({tuning: turn(3, 8)})))).toEqual([chosen('string', '5')]);
	});

	test('then it is the one to turn, to its own aim, until it is read', () => {
		const pinned = {tuning: turn(3, 8), rows: {5: {aim: {mean: 12.5, sd: 1}}}};
		const taken = benchWith({deeds: [opened, chosen('string', '5')], ...pinned});
		expect(tune.task(taken).headline).toBe('Turn string 5 (A2) up until your tuner shows +12.5 cents.');
		expect(tune.task(taken).why).toMatch(/follows you/);
		const after = benchWith({deeds: [opened, chosen('string', '5'), read(5, 12)], ...pinned});
		expect(tune.task(after).string).toBe(3);
	});
});

describe('new strings', () => {
	const restrung: readonly Deed[] = [
		opened,
		...([1, 2, 3, 4, 5, 6] as const).flatMap((string): Deed[] => [
			{type: 'StringSlackened', string},
			{type: 'StringRemoved', string},
			{type: 'StringFitted', string},
		]),
	];
	const all = (now: number) =>
		Object.fromEntries([1, 2, 3, 4, 5, 6].map(string => [string, {now: {mean: now, sd: 3}, state: 'free' as const}]));

	test('are pulled once all are near pitch, all in one entry', () => {
		const near = benchWith({deeds: restrung.slice(0, 4), tuning: turn(2, 4), rows: all(-40)});
		expect(tune.task(near).headline).toMatch(/Pull string 1 gently/);
		expect(entered(tune.task(near))).toEqual([{type: 'StringStretched', string: 1}]);
	});

	test('are not pulled while one is far below', () => {
		const low = benchWith({
			deeds: restrung.slice(0, 4),
			tuning: turn(2, 4),
			rows: {...all(-40), 4: {now: {mean: -90, sd: 3}}},
		});
		expect(tune.task(low).headline).toMatch(/^Turn string 2/);
	});

	test('a settling string is pulled before it is read', () => {
		const settling = benchWith({deeds: [opened], tuning: toRead(3, 'settling')});
		expect(tune.task(settling).headline).toMatch(/Pull string 3 \(G3\) gently/);
		expect(deedsOf(typed(tune, '-20', settling))).toMatchObject([
			{type: 'StringStretched', string: 3},
			{type: 'PitchRead', string: 3, cents: -20},
		]);
	});

	test('and only plucked once it has been pulled', () => {
		const pulled = benchWith({deeds: [opened, {type: 'StringStretched', string: 3}], tuning: toRead(3, 'settling')});
		expect(tune.task(pulled).practice).toEqual({kind: 'pluck', string: 3, how: 'open'});
	});
});

test('a string that broke: a like one goes on, and what doing without it would take is said', () => {
	const inTune = stringsOf(6).map(string => read(string, 0));
	const bench = benchWith({deeds: [opened, ...inTune, {type: 'StringRemoved', string: 4}]});
	const task = tune.task(bench);
	expect(task.headline).toMatch(/^Fit the new string 4/);
	expect(task.why).toBe('With a like one on and at pitch the others come back by themselves.');
	expect(task.how![0]).toMatch(/^Doing without: tail .* low, both claw screws .* looser, a pass\.$/);
});

describe('a change of set', () => {
	const thinner = defaultSheet().strings.map(row => ({...row, gaugeThou: row.gaugeThou - 1}));
	const sheet = {job: 'change', before: thinner} as const;
	const fitted = stringsOf(6).flatMap((string): Deed[] => [
		{type: 'StringRemoved', string},
		{type: 'StringFitted', string},
	]);
	const restrung = benchWith({sheet, deeds: [opened, ...fitted], tuning: turn(6, 40)});

	test('has the claw turned as foreseen before anything is tuned up', () => {
		const task = tune.task(restrung);
		expect(task.headline).toMatch(/^Turn both claw screws .* tighter, as foreseen, before tuning up\.$/);
		const [deed] = entered(task);
		expect(deed).toMatchObject({type: 'ClawTurned'});
		if (deed?.type !== 'ClawTurned') throw new Error('expected claw turns');
		expect(Math.abs(deed.trebleTurns - restrung.change!.clawTurns.mean)).toBeLessThan(0.07);
		expect(deedsOf(typed(tune, '3/8', restrung))).toEqual([{type: 'ClawTurned', trebleTurns: 0.375, bassTurns: 0.375}]);
	});

	test('what a ruler had turned since is not asked to be undone when a string is fitted once more', () => {
		const trim: Deed = {type: 'ClawTurned', trebleTurns: -1.5, bassTurns: -1.5};
		const measured: Deed = {type: 'PlateMeasured', tailMm: -2, entered: '-2'};
		const again: readonly Deed[] = [
			{type: 'StringRemoved', string: 6},
			{type: 'StringFitted', string: 6},
		];
		const bench = (deeds: readonly Deed[]) =>
			benchWith({sheet, deeds: [opened, ...fitted, ...deeds], tuning: turn(6, 40)});
		expect(tune.task(bench([measured, trim, ...again])).headline).toMatch(/^Turn string 6/);
		// Nothing measured: what the change wants still goes first.
		expect(tune.task(bench(again)).headline).toMatch(/as foreseen/);
	});

	test('once turned, or put off, the pass begins; the same strings again want no turn', () => {
		const turned: Deed = {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1};
		const later: Deed = {type: 'WayChosen', choice: 'foreseen claw turns', value: 'later'};
		for (const deed of [turned, later]) {
			const bench = benchWith({sheet, deeds: [opened, ...fitted, deed], tuning: turn(6, 40)});
			expect(tune.task(bench).headline).toMatch(/^Turn string 6/);
		}

		const same = {...sheet, before: defaultSheet().strings};
		const bench = benchWith({sheet: same, deeds: [opened, ...fitted], tuning: turn(6, 40)});
		expect(tune.task(bench).headline).toMatch(/^Turn string 6/);
	});
});

describe('a supported bridge', () => {
	const supported: readonly Deed[] = [opened, {type: 'SupportPlaced'}];

	const plate = {turnsBeforeRelease: {mean: 0.7, sd: 0.1}};
	const unturned = benchWith({deeds: supported, tuning: allInTune, plate});
	const later: Deed = {type: 'WayChosen', choice: 'foreseen claw turns', value: 'later'};

	test('has its claw turned first, so that it comes out as wished', () => {
		const task = tune.task(unturned);
		expect(task.headline).toBe('Turn both claw screws 3/4 turn tighter, so that the bridge comes out as wished.');
		expect(entered(task)).toEqual([{type: 'ClawTurned', trebleTurns: 0.75, bassTurns: 0.75}]);
		expect(deedsOf(typed(tune, '1/2 looser', unturned))).toEqual([
			{type: 'ClawTurned', trebleTurns: -0.5, bassTurns: -0.5},
		]);
		expect(keyOf(tune, 'j', unturned)?.does).toMatchObject({deeds: [later]});
		expect(tune.isDone(unturned)).toBe(false);
	});

	test.each<Deed>([{type: 'ClawTurned', trebleTurns: 0.75, bassTurns: 0.75}, later])(
		'once turned ($type) or put off, its support is to come out, the forecast shown beside it',
		deed => {
			const bench = benchWith({deeds: [...supported, deed], tuning: allInTune, plate});
			const task = tune.task(bench);
			expect(task.act).toEqual({kind: 'unsupport'});
			expect(entered(task)).toEqual([{type: 'SupportRemoved'}]);
			expect(tune.isDone(bench)).toBe(false);
		},
	);

	test('may lose it earlier, after a question', () => {
		expect(keyOf(tune, 'k', benchWith({deeds: supported, tuning: turn(3, 0)}))?.does).toMatchObject({
			deeds: [{type: 'SupportRemoved'}],
			ask: expect.any(String),
		});
	});
});

describe('when all strings are at pitch', () => {
	const bench = benchWith({deeds: [opened], tuning: allInTune});

	test('the stage is done, says how sure it is, and Enter goes on', () => {
		expect(tune.isDone(bench)).toBe(true);
		expect(tune.task(bench).why).toBe('Worst is string 3 (G3) at +0.4 ±0.5 cents; all within 2 cents: 97 % sure.');
		expect(tune.task(bench).how).toEqual([expect.stringMatching(/the clamps will move every string/)]);
		expect(entered(tune.task(bench))).toEqual([{type: 'StagePassed', stage: 'tune'}]);
	});

	test('a plan that ends short of the tolerance says so, and how to go on with the worst', () => {
		const near = benchWith({
			deeds: [opened],
			tuning: {kind: 'done', worst: {string: 3, error: {mean: -2.2, sd: 0.2}}, probability: 0.01},
		});
		expect(tune.task(near).headline).toMatch(/as near as the plan brings them/);
		expect(tune.task(near).how).toContain('To turn string 3 once more type its number and a colon: 3:');
		expect(deedsOf(typed(tune, '3:', near))).toEqual([chosen('string', '3')]);
	});

	test('a reading of a named string is still taken, a bare number is not', () => {
		expect(deedsOf(typed(tune, '2: +1', bench))).toMatchObject([{type: 'PitchRead', string: 2}]);
		expect(typed(tune, '+1', bench).kind).toBe('refused');
	});
});
