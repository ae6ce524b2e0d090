import {describe, expect, test} from 'vitest';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {unlock} from '../../source/stages/unlock/index.ts';
import {benchWith, deedsOf, entered, keyOf, storyOf, typed} from '../helpers/bench.ts';

/** Enter at every task, choosing this way, until the stage is passed; the facts in order. */
function walked(way: string): readonly Deed[] {
	let deeds: readonly Deed[] = deedsOf(typed(unlock, way, benchWith()));
	for (let step = 0; step < 40; step++) {
		const story = storyOf(deeds);
		if (deeds.some(({type}) => type === 'StagePassed')) return deeds;
		const bench = benchWith({deeds});
		const next = entered(unlock.task(bench));
		const decision = decide(next, stateOf(story));
		if (!decision.ok) throw new Error(decision.said);
		deeds = [...deeds, ...next];
	}
	throw new Error('the stage did not end');
}

describe('strings stay on', () => {
	test('clamps off, fine tuners centred, done', () => {
		expect(walked('1').map(({type}) => type)).toEqual(['WayChosen', 'NutOpened', 'FineTunersCentred', 'StagePassed']);
	});

	test('an intonation job is not asked about strings', () => {
		expect(unlock.task(benchWith({sheet: {job: 'intonation'}})).headline).toMatch(/clamp blocks/);
	});

	test('eye protection and the maker’s instructions are said first', () => {
		const cautions = unlock.task(benchWith()).cautions!.join(' ');
		expect(cautions).toMatch(/eye protection/i);
		expect(cautions).toMatch(/maker/);
	});
});

describe('one string at a time', () => {
	test('is what Enter takes for new strings', () => {
		expect(entered(unlock.task(benchWith({sheet: {job: 'restring'}})))).toMatchObject([{value: 'one'}]);
	});

	test('each string is slack before it comes off, and back near pitch before the next', () => {
		const types = walked('2')
			.filter(deed => 'string' in deed)
			.map(deed => `${deed.type} ${'string' in deed ? deed.string : ''}`);
		expect(types.slice(0, 5)).toEqual([
			'StringSlackened 6',
			'StringRemoved 6',
			'StringFitted 6',
			'PegTurned 6',
			'StringSlackened 5',
		]);
		expect(types).toHaveLength(24);
	});

	test('what the others will do is shown before a string comes off', () => {
		const bench = benchWith({
			deeds: [
				{type: 'WayChosen', choice: 'string change', value: 'one'},
				{type: 'NutOpened'},
				{type: 'FineTunersCentred'},
			],
		});
		expect(unlock.task(bench)).toMatchObject({act: {kind: 'remove', string: 6}, string: 6});
	});

	test('a reading typed while it comes up is a turn and a reading', () => {
		const deeds: readonly Deed[] = [
			{type: 'WayChosen', choice: 'string change', value: 'one'},
			{type: 'NutOpened'},
			{type: 'FineTunersCentred'},
			{type: 'StringSlackened', string: 6},
			{type: 'StringRemoved', string: 6},
			{type: 'StringFitted', string: 6},
		];
		expect(deedsOf(typed(unlock, '-20', benchWith({deeds})))).toEqual([
			{type: 'PegTurned', string: 6, untilCents: 0},
			{type: 'PitchRead', string: 6, how: 'open', cents: -20, entered: '-20'},
		]);
	});
});

describe('all off, bridge supported', () => {
	test('support goes in first, then all off, then all on', () => {
		const types = walked('3').map(({type}) => type);
		expect(types.slice(0, 4)).toEqual(['WayChosen', 'SupportPlaced', 'NutOpened', 'FineTunersCentred']);
		expect(types.filter(type => type === 'StringRemoved')).toHaveLength(6);
		expect(types.lastIndexOf('StringRemoved')).toBeLessThan(types.indexOf('StringFitted'));
	});

	test('says that strings do not affect each other', () => {
		const deeds: Deed[] = [...walked('3')].filter(({type}) => type !== 'StagePassed');
		expect(unlock.task(benchWith({deeds})).why).toMatch(/blocked: strings do not affect each other/);
	});

	test('some of the strings can be named', () => {
		const deeds: readonly Deed[] = [
			{type: 'WayChosen', choice: 'string change', value: 'support'},
			{type: 'SupportPlaced'},
			{type: 'NutOpened'},
			{type: 'FineTunersCentred'},
		];
		const bench = benchWith({deeds});
		expect(deedsOf(typed(unlock, '1, 3', bench)).map(deed => 'string' in deed && deed.string)).toEqual([1, 1, 3, 3]);
		expect(typed(unlock, '1 1', bench)).toMatchObject({kind: 'refused'});
		expect(typed(unlock, '7', bench)).toMatchObject({kind: 'refused'});
	});
});

test.each(['4', 'stay', ''])('%s is no choice', text => {
	expect(typed(unlock, text, benchWith())).toMatchObject({kind: 'refused'});
});

test('what is typed where nothing is asked is read back', () => {
	const bench = benchWith({deeds: [{type: 'WayChosen', choice: 'string change', value: 'stay'}]});
	expect(typed(unlock, '-12', bench)).toEqual({
		kind: 'refused',
		said: 'Read “-12”, but nothing is asked here. Clear the line; Enter alone means: clamps are off.',
	});
});

test('going on before it is done is possible, after a question', () => {
	expect(keyOf(unlock, '>', benchWith())?.does).toMatchObject({ask: expect.stringMatching(/not finished/)});
});
