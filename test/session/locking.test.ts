import {describe, expect, test} from 'vitest';
import {benchOf} from '../../source/session/bench-of.ts';
import type {Deed} from '../../source/session/facts.ts';
import {lessonOf} from '../../source/session/lesson.ts';
import {relock} from '../../source/stages/re-lock/index.ts';
import {storyOf} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

const six = [1, 2, 3, 4, 5, 6] as const;
const all = (cents: (string: (typeof six)[number]) => number): readonly Deed[] =>
	six.map(string => read(string, cents(string)));
const clamped: Deed = {type: 'NutClamped'};
const shifts = [3, 4, -2, 5, 1, 2];

/** In tune, read twice, clamped, read. */
const locked: readonly Deed[] = [opened, ...all(() => 0), ...all(() => 0), clamped, ...all(each => shifts[each - 1]!)];

describe('the shift of the clamps', () => {
	test('is found from what was believed before and read after', () => {
		const {strings} = benchOf(storyOf(locked)).locking();
		for (const [index, {found}] of strings.entries()) expect(found!.mean).toBeCloseTo(shifts[index]!, 0);
	});

	test('is kept for the next set-up, which sets each string off by it before clamping', () => {
		const learned = lessonOf(storyOf(locked));
		expect(learned.clamp).toHaveLength(6);
		const next = benchOf(storyOf([opened, ...all(() => 0), ...all(() => 0), ...all(() => 0)]), learned);
		for (const [index, {aimCents}] of next.locking().strings.entries())
			expect(aimCents).toBeCloseTo(-shifts[index]!, 0);
		expect(next.locking().beforeClamp?.kind).toBe('turn');
		const task = relock.task(next);
		expect(task.headline).toMatch(/^Turn string/);
		expect(task.how![0]).toMatch(/The clamps moved string \d by [+−]\d\.\d cents last time/);
	});

	test('standing off by it counts as ready for the clamps', () => {
		const learned = lessonOf(storyOf(locked));
		const off = all(each => -shifts[each - 1]!);
		const next = benchOf(storyOf([opened, ...off, ...off, ...off]), learned);
		expect(next.locking().beforeClamp?.kind).toBe('done');
		expect(relock.task(next).how![0]).toMatch(/^\[x\] 1 open strings at pitch: each set off by what the clamps did/);
	});

	test('a first set-up knows nothing of it', () => {
		const {strings, beforeClamp} = benchOf(storyOf([opened, ...all(() => 0)])).locking();
		expect(beforeClamp).toBeUndefined();
		expect(strings.every(({aimCents, expected}) => aimCents === 0 && expected === undefined)).toBe(true);
	});

	test('set-ups of another number of strings are no help', () => {
		const learned = {...lessonOf(storyOf(locked)), clamp: [null, null]};
		expect(benchOf(storyOf([opened, ...all(() => 0)]), learned).locking().beforeClamp).toBeUndefined();
	});
});

describe('after clamping', () => {
	test('the first task says what the clamps moved and what the fine tuner can still do', () => {
		const how = relock.task(benchOf(storyOf([...locked, ...all(each => 4 * shifts[each - 1]!)]))).how!.join('\n');
		expect(how).toMatch(/The clamps moved: \+\d/);
		expect(how).toMatch(/Fine tuner of string \d: about \d+ cents left/);
	});

	test('strings that all went well sharp bring the retainer bar into question', () => {
		const high = [opened, ...all(() => 0), ...all(() => 0), clamped, ...all(() => 12)];
		const bench = benchOf(storyOf(high));
		expect(bench.locking().retainerSuspects.length).toBeGreaterThan(3);
		expect(relock.task(bench).how!.join('\n')).toMatch(/retainer bar/);
	});

	test('a correction out of the reach of its fine tuner asks for the pair to be unlocked', () => {
		const far = [opened, ...all(() => 0), ...all(() => 0), clamped, ...all(each => (each === 6 ? -250 : 0))];
		const bench = benchOf(storyOf([...far, read(6, -250), read(6, -250)]));
		const row = bench.locking().strings[5]!;
		expect(row).toMatchObject({isOutOfReach: true, pair: [5, 6]});
	});
});
