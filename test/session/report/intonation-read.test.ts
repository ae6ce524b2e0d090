import {expect, test} from 'vitest';
import {intonationRead} from '../../../source/session/report/intonation-read.ts';
import type {Deed} from '../../../source/session/facts.ts';
import {journalOf, read} from '../../helpers/deeds.ts';

const storyOf = (...deeds: readonly Deed[]) => journalOf(...deeds).story;
const turned: Deed = {type: 'PegTurned', string: 5};
const moved: Deed = {type: 'SaddleMoved', string: 2, travelMm: 1};

test('fretted minus harmonic, repeated plucks averaged', () => {
	const story = storyOf(read(2, 1, 'harmonic'), read(2, 2, 'harmonic'), read(2, 6, 'fretted'), read(2, 7, 'fretted'));
	expect(intonationRead(story, 2)).toBe(5);
});

test('a harmonic read before something was turned does not count against a later fretted note', () => {
	expect(intonationRead(storyOf(read(2, 1, 'harmonic'), turned, read(2, 6, 'fretted')), 2)).toBeUndefined();
});

test('an earlier whole pair stands until there is a later one', () => {
	const earlier = [read(2, 1, 'harmonic'), read(2, 6, 'fretted'), turned];
	expect(intonationRead(storyOf(...earlier, read(2, 0, 'harmonic')), 2)).toBe(5);
	expect(intonationRead(storyOf(...earlier, read(2, 0, 'harmonic'), read(2, 3, 'fretted')), 2)).toBe(3);
});

test('what was read before the saddle moved says nothing', () => {
	expect(intonationRead(storyOf(read(2, 1, 'harmonic'), read(2, 6, 'fretted'), moved), 2)).toBeUndefined();
});

test('nor what was read on the string that was on before', () => {
	const fitted: Deed = {type: 'StringFitted', string: 2};
	expect(intonationRead(storyOf(read(2, 1, 'harmonic'), read(2, 6, 'fretted'), fitted), 2)).toBeUndefined();
});

test('the open string stands for the harmonic where none was read', () => {
	expect(intonationRead(storyOf(read(2, 1), read(2, 3, 'fretted')), 2)).toBe(2);
	expect(intonationRead(storyOf(read(2, 1), read(2, 0, 'harmonic'), read(2, 3, 'fretted')), 2)).toBe(3);
});

test('another string and another fret do not count', () => {
	const atFifth: Deed = {type: 'PitchRead', string: 2, how: 'fretted', fret: 5, cents: 9, entered: '9'};
	expect(intonationRead(storyOf(read(2, 1, 'harmonic'), atFifth, read(3, 8, 'fretted')), 2)).toBeUndefined();
});
