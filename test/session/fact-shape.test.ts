import fc from 'fast-check';
import {describe, expect, test} from 'vitest';
import {isFact, isJournal} from '../../source/session/fact-shape.ts';
import {anyDeed, anyJournal} from '../helpers/deeds.ts';

const stamp = {at: 5, entry: 1};
/** Fields that a fact may lack. */
const optional = ['untilCents', 'fret', 'meant', 'heard', 'hole'];

describe('a fact', () => {
	test('of any kind passes, also after JSON', () => {
		fc.assert(
			fc.property(anyDeed, deed => {
				expect(isFact(JSON.parse(JSON.stringify({...stamp, ...deed})))).toBe(true);
			}),
		);
	});

	test('that lacks a field, or holds something else in it, does not pass', () => {
		fc.assert(
			fc.property(anyDeed, fc.nat(), fc.constantFrom(null, [], {}, Number.NaN), (deed, pick, instead) => {
				const fact: Record<string, unknown> = {...stamp, ...deed};
				const fields = Object.keys(fact);
				const field = fields[pick % fields.length]!;
				expect(isFact({...fact, [field]: instead})).toBe(false);
				delete fact[field];
				expect(isFact(fact)).toBe(optional.includes(field));
			}),
		);
	});

	test.each([
		['of no known kind', {...stamp, type: 'NeckBent'}],
		['named like something every object has', {...stamp, type: 'constructor'}],
		['about a ninth string', {...stamp, type: 'PegTurned', string: 9}],
		['of entry 0', {at: 5, entry: 0, type: 'NutOpened'}],
		['of half an entry', {at: 5, entry: 1.5, type: 'NutOpened'}],
		['that is a text', 'NutOpened'],
		['that is nothing', null],
	])('%s does not pass', (_, value) => {
		expect(isFact(value)).toBe(false);
	});
});

describe('a journal', () => {
	test('passes after JSON', () => {
		fc.assert(
			fc.property(anyJournal, journal => {
				expect(isJournal(JSON.parse(JSON.stringify(journal)))).toBe(true);
			}),
		);
	});

	const fact = (entry: number) => ({at: 5, entry, type: 'NutOpened'});

	test.each([
		['with entries out of order', {story: [fact(2), fact(1)], undone: []}],
		['with a withdrawn entry of two numbers', {story: [], undone: [[fact(1), fact(2)]]}],
		['with an empty withdrawn entry', {story: [], undone: [[]]}],
		['without withdrawn entries', {story: []}],
		['without a story', {undone: []}],
		['that is a list', []],
	])('%s does not pass', (_, value) => {
		expect(isJournal(value)).toBe(false);
	});
});
