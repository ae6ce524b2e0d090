import {describe, expect, test} from 'vitest';
import {learnedFor, withLesson} from '../../source/shell/learned.ts';

const lesson = (mean: number) => ({strings: 6, mean: [mean], covariance: [[1]]});

describe('what a guitar taught', () => {
	const first = withLesson(undefined, 'a', lesson(1), 1000);
	const second = withLesson(first, 'b', lesson(2), 2000);

	test('serves the set-ups that start after it', () => {
		expect(learnedFor(first, {id: 'b', startedAt: 1500})).toEqual(lesson(1));
		expect(learnedFor(second, {id: 'c', startedAt: 2500})).toEqual(lesson(2));
	});

	test('is never given back to the set-up that taught it, which keeps what it began with', () => {
		expect(learnedFor(first, {id: 'a', startedAt: 500})).toBeUndefined();
		expect(learnedFor(second, {id: 'b', startedAt: 1500})).toEqual(lesson(1));
	});

	test('is not given to a set-up that began before', () => {
		expect(learnedFor(second, {id: 'a', startedAt: 500})).toBeUndefined();
	});

	test('is replaced, not added to, when a set-up is done a second time', () => {
		const again = withLesson(second, 'b', lesson(3), 3000);
		expect(learnedFor(again, {id: 'b', startedAt: 1500})).toEqual(lesson(1));
		expect(learnedFor(again, {id: 'c', startedAt: 3500})).toEqual(lesson(3));
	});

	test('survives the store, and what is not its shape is as nothing', () => {
		expect(learnedFor(JSON.parse(JSON.stringify(second)), {id: 'c', startedAt: 2500})).toEqual(lesson(2));
		for (const damaged of [null, 7, {}, {...second, learned: {strings: 6, mean: ['x'], covariance: []}}])
			expect(learnedFor(damaged, {id: 'c', startedAt: 2500})).toBeUndefined();
	});
});
