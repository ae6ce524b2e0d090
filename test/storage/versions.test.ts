import {describe, expect, test} from 'vitest';
import {type Layout, openDocument} from '../../source/storage/versions.ts';

/** A layout that changed twice. */
const layout: Layout = {
	format: 'invented',
	version: 3,
	steps: {
		1: ({inches, ...rest}) => ({...rest, mm: Number(inches) * 25.4}),
		2: ({mm, ...rest}) => ({...rest, lengthMm: mm}),
	},
};

const open = (document: unknown) => openDocument(JSON.stringify(document), layout);

describe('an old document', () => {
	test('is brought up step by step', () => {
		const current = {kind: 'current', document: {format: 'invented', version: 3, lengthMm: 254}};
		expect(open({format: 'invented', version: 1, inches: 10})).toEqual(current);
		expect(open({format: 'invented', version: 2, mm: 254})).toEqual(current);
		expect(open({format: 'invented', version: 3, lengthMm: 254})).toEqual(current);
	});

	test('for which a step was forgotten is a bug', () => {
		const text = JSON.stringify({format: 'invented', version: 1});
		expect(() => openDocument(text, {...layout, steps: {2: document => document}})).toThrow(
			'expected a step from version 1',
		);
	});
});

test('a newer document is named by its version', () => {
	expect(open({format: 'invented', version: 4})).toEqual({kind: 'newer', version: 4});
});

test.each([
	['another format', {format: 'other', version: 1}],
	['no version', {format: 'invented'}],
	['half a version', {format: 'invented', version: 1.5}],
	['a list', []],
	['nothing', null],
])('%s is damage', (_, document) => {
	expect(open(document).kind).toBe('damaged');
});
