import {beforeAll, describe, expect, test} from 'vitest';
import {walk} from '../../demo/walker.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {type Journal, record, undo} from '../../source/session/journal.ts';
import {performPractice} from '../../source/session/practice-world.ts';
import {endKeys, endTask} from '../../source/shell/end-task.ts';
import {realPorts} from '../../source/shell/real-ports.ts';
import {seenBy} from '../../source/shell/seen.ts';
import {stageOf} from '../../source/shell/place.ts';
import {recheck} from '../../source/stages/re-check/index.ts';
import {stages} from '../../source/stages/index.ts';
import {allInTune, deedsOf} from '../helpers/bench.ts';
import {memoryStore} from '../helpers/memory-store.ts';

const dayMs = 24 * 3600 * 1000;
const practice = {...defaultSheet(), job: 'whole', practiceSeed: 3} as const;

let finished: Journal;

beforeAll(() => {
	const steps = walk(practice);
	let next = steps.next();
	while (!next.done) next = steps.next();
	finished = next.value;
});

const lastAt = () => finished.story.at(-1)!.at;

function later(journal: Journal, deeds: readonly Deed[], at = lastAt() + dayMs): Journal {
	const decided = decide(deeds, stateOf(journal.story));
	expect(decided).toMatchObject({ok: true});
	return record(journal, deeds, at);
}

function begun(): Journal {
	const {enter} = endTask(benchOf(finished.story), lastAt() + dayMs);
	return later(finished, enter!.deeds as readonly Deed[]);
}

/** Cents typed for all six strings, expectations moved by these. */
function readAs(shifts: readonly number[]): Journal {
	const journal = begun();
	const bench = benchOf(journal.story);
	const cents = bench.recheck()!.strings.map(({expected}, index) => (expected!.mean + shifts[index]!).toFixed(1));
	const twice = recheck.answer(cents.join(' '), recheck.task(bench), bench, {meant: true});
	return later(journal, deedsOf(twice));
}

describe('a finished set-up opened again', () => {
	test('on the same day nothing is asked, and the key wonders on a real guitar', () => {
		const bench = benchOf(finished.story);
		expect(endTask(bench, lastAt() + 60_000).enter).toBeUndefined();
		const real = {...bench, sheet: {...bench.sheet, practiceSeed: undefined}} as unknown as typeof bench;
		expect(endKeys(real, lastAt() + 60_000).find(({key}) => key === 'k')!.does).toHaveProperty('ask');
		expect(endKeys(bench, lastAt() + 60_000).find(({key}) => key === 'k')!.does).not.toHaveProperty('ask');
	});

	test('left open over night it is seen with the clock of today', () => {
		let now = lastAt() + 60_000;
		const ports = {...realPorts(memoryStore(), () => now)};
		const headline = () => seenBy({journal: finished}, ports).task.headline;
		expect(headline()).toBe('This set-up is done.');
		now += dayMs;
		expect(headline()).toMatch(/^This set-up has rested for a night/);
	});

	test('after a night it offers the re-check, which is a step of its own', () => {
		const task = endTask(benchOf(finished.story), lastAt() + dayMs);
		expect(task.headline).toMatch(/^This set-up has rested for a night/);
		expect(endTask(benchOf(finished.story), lastAt() + 3 * dayMs).headline).toContain('finished 3 days ago');
		expect(task.enter!.label).toBe('re-check');
		expect(stageOf(benchOf(begun().story), stages)!.id).toBe('re-check');
	});
});

describe('the re-check', () => {
	test('shows per string what is expected before anything is read', () => {
		const task = recheck.task(benchOf(begun().story));
		expect(task.why).toMatch(/expected at .*±.* cents/);
		expect(task.how!.filter(line => /^string \d: expected .*, read —$/.test(line))).toHaveLength(6);
	});

	test('nothing changed: as it was left, and Enter finishes', () => {
		const journal = readAs([0.2, -0.3, 0.1, 0, 0.3, -0.2]);
		const task = recheck.task(benchOf(journal.story));
		expect(task.headline).toMatch(/^As it was left/);
		const done = later(journal, [{type: 'StagePassed', stage: 're-check'}]);
		expect(stageOf(benchOf(done.story), stages)).toBeUndefined();
	});

	test('one string far off is a fault and named, with what to look at; then the strings can be brought back', () => {
		const journal = readAs([0, 0, -14, 0.2, 0, -0.1]);
		const bench = benchOf(journal.story);
		const task = recheck.task(bench);
		expect(task.headline).toMatch(/^A fault, not settling: .*string 3/);
		expect(task.enter!.label).toBe('tune them');
		const tuned = benchOf(later(journal, task.enter!.deeds as readonly Deed[]).story);
		expect(recheck.task(tuned).practice).toMatchObject({by: 'fine-tuner'});
	});

	test('strings brought back in part are not said to be back at pitch', () => {
		const journal = readAs([0, 0, -14, 0.2, 9, -0.1]);
		const chosen = later(journal, recheck.task(benchOf(journal.story)).enter!.deeds as readonly Deed[]);
		const turned = later(chosen, [
			{type: 'FineTunerTurned', string: 3},
			{type: 'PitchRead', string: 3, how: 'open', cents: 0, entered: '0'},
		]);
		const told = recheck.task({...benchOf(turned.story), tuning: allInTune});
		expect(told.why).toMatch(/Out of tolerance: strings? .*5/);
		expect(told.why).not.toContain('back at pitch');
	});

	test('what was read and judged stands when strings are turned afterwards', () => {
		const journal = readAs([0, 0, -14, 0.2, 0, -0.1]);
		const turned = later(journal, [
			{type: 'FineTunerTurned', string: 3},
			{type: 'PitchRead', string: 3, how: 'open', cents: 0, entered: '0'},
		]);
		expect(benchOf(turned.story).recheck()!.found!.verdict).toBe('fault');
	});

	describe('with the targets changed after it was begun', () => {
		const sheet = () => stateOf(finished.story).sheet!;
		const sharper = () => [{type: 'SheetFilled', sheet: {...sheet(), referenceAHz: 442}}] as const;
		/** 1200 log2(440 / 442). */
		const shift = -7.85;
		const typedAs = (journal: Journal, cents: readonly number[]) => {
			const bench = benchOf(journal.story);
			const text = cents.map(each => each.toFixed(1)).join(' ');
			return later(journal, deedsOf(recheck.answer(text, recheck.task(bench), bench, {meant: true})));
		};
		const expectedIn = (journal: Journal) =>
			benchOf(journal.story)
				.recheck()!
				.strings.map(row => row.expected!.mean);

		test('yesterday is expected against the new ones, and that is said', () => {
			const before = expectedIn(begun());
			const changed = later(begun(), sharper());
			for (const [at, mean] of expectedIn(changed).entries()) expect(mean - before[at]!).toBeCloseTo(shift, 1);
			expect(recheck.task(benchOf(changed.story)).how!.join(' ')).toContain('other targets than it was left at');
			expect(recheck.task(benchOf(begun().story)).how!.join(' ')).not.toContain('targets');
		});

		test('strings that stayed where they were are no fault', () => {
			const changed = later(begun(), sharper());
			const same = expectedIn(begun()).map(mean => mean + shift);
			const {found} = benchOf(typedAs(changed, same).story).recheck()!;
			expect(found!.verdict).toBe('as-left');
		});

		test('what was read before the change is moved with it', () => {
			const start = begun();
			const read = typedAs(start, expectedIn(start));
			const {found: first} = benchOf(read.story).recheck()!;
			const {found, strings} = benchOf(later(read, sharper()).story).recheck()!;
			expect(found!.verdict).toBe(first!.verdict);
			for (const {expected, readCents} of strings) expect(readCents! - expected!.mean).toBeCloseTo(0, 0);
		});

		test('one note changed concerns that string alone', () => {
			const {strings} = sheet();
			const dropped = {...sheet(), strings: strings.map((row, at) => (at === 5 ? {...row, note: 'D2'} : row))};
			const before = expectedIn(begun());
			const after = expectedIn(later(begun(), [{type: 'SheetFilled', sheet: dropped}]));
			expect(after[5]! - before[5]!).toBeCloseTo(200, 0);
			expect(after.slice(0, 5).map((mean, at) => Math.abs(mean - before[at]!) < 0.3)).toEqual(Array(5).fill(true));
		});
	});

	test('undo takes the day back', () => {
		expect(undo(begun()).story).toEqual(finished.story);
	});

	test('a day passes for the practice guitar too, and nothing but settling comes of it', () => {
		let journal = begun();
		for (let step = 0; step < 6; step++) {
			const task = recheck.task(benchOf(journal.story));
			journal = later(journal, performPractice(journal.story, task.practice!));
		}

		const {strings, found} = benchOf(journal.story).recheck()!;
		const changes = strings.map(({expected, readCents}) => readCents! - expected!.mean);
		expect(changes.reduce((sum, cents) => sum + cents, 0) / 6).toBeLessThan(0.5);
		expect(found!.verdict).toBe('as-left');
	});
});
