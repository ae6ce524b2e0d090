import {beforeAll, describe, expect, test} from 'vitest';
import {type Person, type Step, walk} from '../../demo/walker.ts';
import {truth} from '../../source/practice/index.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Story} from '../../source/session/facts.ts';
import {practiceGuitarOf} from '../../source/session/practice-world.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import {setUpSheet} from '../../source/session/report/set-up-sheet.ts';
import {stages} from '../../source/stages/index.ts';
import {wizardKeys} from '../../source/stages/stage.ts';

/** A whole set-up, the simulated hands doing what is asked at every task. */
function walked(sheet: InstrumentSheet): {readonly steps: readonly Step[]; readonly story: Story} {
	const steps = [...walk(sheet)];
	return {steps, story: steps.at(-1)!.journal.story};
}

// The practice guitar's physics is richer than what the advice believes in, and its truth is hidden from it.
describe('a whole set-up on a practice guitar, one task after the other', () => {
	let steps: readonly Step[];
	let story: Story;
	beforeAll(() => {
		({steps, story} = walked({...defaultSheet(), practiceSeed: 3}));
	});

	test('goes through all stages in order', () => {
		const order = steps.map(({stage}) => stage.id).filter((id, index, ids) => id !== ids[index - 1]);
		// All but the re-check, which waits for another day.
		expect(order).toEqual(stages.map(({id}) => id).slice(0, -1));
	});

	test('ends in tune, level and intonated, in truth', () => {
		const {cents, tailM, fretted12ErrorCents} = truth(practiceGuitarOf(story)!);
		for (const each of cents) expect(Math.abs(each!)).toBeLessThan(2);
		expect(Math.abs(1000 * tailM)).toBeLessThan(0.5);
		for (const each of fretted12ErrorCents) expect(Math.abs(each!)).toBeLessThan(3);
	});

	test('the sheet says what was done', () => {
		const {work, plate, strings} = setUpSheet(steps.at(-1)!.bench);
		expect(work.saddleMoves).toBeGreaterThan(0);
		expect(work.clawSteps).toBeGreaterThan(0);
		expect(plate.firstTailMm).toBeDefined();
		expect(strings.every(({firstCents, nowCents}) => firstCents !== undefined && nowCents !== undefined)).toBe(true);
	});

	test('a saddle is only moved on a slack string, and hardly ever twice for one string', () => {
		const moves = story.flatMap(fact => (fact.type === 'SaddleMoved' ? [fact.string] : []));
		for (const string of new Set(moves)) expect(moves.filter(each => each === string).length).toBeLessThanOrEqual(2);
	});

	describe('every task', () => {
		test('is one instruction that fits two rows of a small screen, with its reason in the third', () => {
			for (const {task} of steps) {
				const rows = Math.ceil(task.headline.length / 76);
				expect(rows, task.headline).toBeLessThanOrEqual(2);
				expect(task.why.length, task.why).toBeLessThanOrEqual(76 * (3 - rows));
				expect(task.headline).toMatch(/^[A-Z].*[.?]$/);
			}
		});

		test('can be done by the simulated hands with one key, and says how far the stage is', () => {
			for (const {task} of steps) {
				expect(task.practice, task.headline).toBeDefined();
				expect(task.progress).toBeGreaterThanOrEqual(0);
				expect(task.progress).toBeLessThanOrEqual(1);
			}
		});

		test('uses no key that belongs to the wizard or begins a note, and none twice', () => {
			for (const {stage, task, bench} of steps) {
				const keys = stage.keys(bench, task).map(({key}) => key);
				expect(new Set(keys).size).toBe(keys.length);
				for (const key of keys) {
					expect(wizardKeys).not.toContain(key);
					expect(key).not.toMatch(/^[a-h]$/);
				}
			}
		});

		test('refuses what is no answer in words, and throws at nothing', () => {
			for (const {stage, task, bench} of steps.filter((_, index) => index % 7 === 0)) {
				for (const text of ['', '???', '1O', 'x'.repeat(300), '−', '99999999', ':', '\u0007']) {
					const answer = stage.answer(text, task, bench);
					if (answer.kind !== 'deeds') expect(answer.said).toMatch(/[.?!”]/);
				}
			}
		});
	});
});

test('an intonation job leaves balance out and ends intonated, in truth', () => {
	const {steps, story} = walked({...defaultSheet(), job: 'intonation', practiceSeed: 3});
	expect(steps.some(({stage}) => stage.id === 'balance')).toBe(false);
	const {cents, fretted12ErrorCents} = truth(practiceGuitarOf(story)!);
	for (const each of cents) expect(Math.abs(each!)).toBeLessThan(2);
	for (const each of fretted12ErrorCents) expect(Math.abs(each!)).toBeLessThan(3);
});

test('a restring one string at a time ends in tune and level, in truth', () => {
	const {steps, story} = walked({...defaultSheet(), job: 'restring', practiceSeed: 3});
	expect(steps.at(-1)!.bench.story.filter(({type}) => type === 'StringFitted')).toHaveLength(6);
	const {cents, tailM} = truth(practiceGuitarOf(story)!);
	for (const each of cents) expect(Math.abs(each!)).toBeLessThan(2);
	expect(Math.abs(1000 * tailM)).toBeLessThan(0.5);
});

test('a change of gauges, the springs measured by the simulated hands, ends in tune and level, in truth', () => {
	const before = defaultSheet().strings.map(row => ({...row, gaugeThou: row.gaugeThou - 1}));
	const sheet: InstrumentSheet = {...defaultSheet(), job: 'change', before, practiceSeed: 3};
	const measures: Person = ({bench, stage, task}) =>
		stage.keys(bench, task).some(({key, label}) => key === 'w' && label === 'measure springs')
			? {kind: 'presses', key: 'w'}
			: undefined;
	const steps = [...walk(sheet, measures)];
	const {story} = steps.at(-1)!.journal;
	const asked = steps.filter(({task}) => task.practice?.kind === 'measure-springs');
	expect(asked).toHaveLength(1);
	expect(asked[0]!.deeds).toMatchObject([{type: 'SheetFilled', sheet: {springLengthsMm: expect.any(Array)}}]);
	const {cents, tailM} = truth(practiceGuitarOf(story)!);
	for (const each of cents) expect(Math.abs(each!)).toBeLessThan(2);
	expect(Math.abs(1000 * tailM)).toBeLessThan(0.5);
});
