import {describe, expect, test} from 'vitest';
import {sdOf} from '../../source/estimation/hands.ts';
import {noise} from '../../source/estimation/priors.ts';
import {usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {harmonicAboveOctaveCents} from '../../source/physics/fretted-note.ts';
import {stiffnessFromInharmonicity} from '../../source/physics/inharmonicity.ts';
import {beliefOf} from '../../source/session/belief-of.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {decide} from '../../source/session/decide.ts';
import {stateOf} from '../../source/session/evolve.ts';
import {isFact} from '../../source/session/fact-shape.ts';
import type {Deed, HeardPitch} from '../../source/session/facts.ts';
import {heardStiffnessOf} from '../../source/session/heard-told.ts';
import {undo} from '../../source/session/journal.ts';
import {setUpSheet} from '../../source/session/report/set-up-sheet.ts';
import {sheetData} from '../../source/session/report/sheet-data.ts';
import {saddleBeliefFor} from '../../source/session/saddles.ts';
import type {StringNumber} from '../../source/music/string-number.ts';
import {filled, journalOf, opened, read, sheet} from '../helpers/deeds.ts';

function heard(
	string: StringNumber,
	cents: number,
	how: 'open' | 'harmonic' | 'fretted' = 'open',
	more: Partial<HeardPitch> = {},
): Deed {
	return {...(read(string, cents, how) as Deed & {type: 'PitchRead'}), heard: {sdCents: 0.05, ...more}};
}

const storyOf = (...deeds: readonly Deed[]) => journalOf(filled, ...deeds).story;
const six: readonly StringNumber[] = [1, 2, 3, 4, 5, 6];
const allRead = six.map(string => read(string, -5 * string));

describe('a heard reading as a fact', () => {
	test('one from before there were ears is read as ever, one that was heard too', () => {
		const stamp = {at: 5, entry: 1};
		expect(isFact({...stamp, ...read(4, -12)})).toBe(true);
		expect(isFact({...stamp, ...heard(4, -12)})).toBe(true);
		expect(isFact({...stamp, ...heard(4, -12, 'open', {stiffness: {mean: 1e-4, sd: 1e-6}, tunerCents: -11})})).toBe(
			true,
		);
		expect(isFact({...stamp, ...read(4, -12), heard: {sdCents: 'little'}})).toBe(false);
		expect(isFact({...stamp, ...read(4, -12), heard: {sdCents: 0.1, stiffness: 1e-4}})).toBe(false);
	});

	test('is refused with an uncertainty that cannot be', () => {
		const state = stateOf(storyOf());
		expect(decide([heard(4, -12)], state).ok).toBe(true);
		expect(decide([heard(4, -12, 'open', {sdCents: -1})], state)).toMatchObject({ok: false, refused: 'out-of-range'});
	});

	test('is taken back whole', () => {
		const journal = journalOf(filled, ...allRead, heard(4, -12));
		expect(benchOf(undo(journal).story).strings[3]!.now).toEqual(benchOf(storyOf(...allRead)).strings[3]!.now);
	});
});

describe('what is believed after it', () => {
	const nowOf = (...deeds: readonly Deed[]) => benchOf(storyOf(...allRead, ...deeds)).strings[3]!.now!;

	test('is surer than after the tuner, but never surer than plucks are alike', () => {
		const [typed, byEar] = [nowOf(read(4, -20)), nowOf(heard(4, -20))];
		expect(byEar.sd).toBeLessThan(0.6 * typed.sd);
		expect(nowOf(heard(4, -20, 'open', {sdCents: 1e-6})).sd).toBeGreaterThan(0.5 * noise.pluckCents);
	});

	test('an unsure ear counts less than the tuner', () => {
		expect(nowOf(heard(4, -20, 'open', {sdCents: 3})).sd).toBeGreaterThan(nowOf(read(4, -20)).sd);
	});

	test('says nothing of the tuner, whose scatter is learned from typed readings alone', () => {
		const tunerOf = (...deeds: readonly Deed[]) => sdOf(beliefOf(storyOf(...allRead, ...deeds), sheet).hands.reading);
		const again = (make: typeof heard) => [0, 0.02, -0.02, 0.01, 0].map(off => make(4, -20 + off));
		expect(tunerOf(...again(heard))).toEqual(tunerOf());
		expect(tunerOf(...again((string, cents) => read(string, cents))).mean).toBeLessThan(tunerOf().mean);
	});

	test('the plan counts on readings like the newest one', () => {
		const {hands} = beliefOf(storyOf(...allRead, heard(4, -20)), sheet);
		expect(hands.heardCents).toBeCloseTo(Math.hypot(0.05, noise.pluckCents), 9);
		expect(beliefOf(storyOf(...allRead, heard(4, -20), read(3, 0)), sheet).hands.heardCents).toBeUndefined();
	});
});

describe('the saddle', () => {
	const atPitch = [opened, ...six.map(string => read(string, 0))];
	const saddleAfter = (...deeds: readonly Deed[]) => {
		const story = storyOf(...atPitch, ...deeds);
		return saddleBeliefFor(story, sheet, beliefOf(story, sheet), 3);
	};

	test('is known better by ear, as far as a finger presses alike', () => {
		const typed = saddleAfter(read(3, 0, 'harmonic'), read(3, 5, 'fretted'));
		const byEar = saddleAfter(heard(3, 0, 'harmonic'), heard(3, 5, 'fretted'));
		expect(byEar.errorCents.sd).toBeLessThan(0.75 * typed.errorCents.sd);
		expect(byEar.errorCents.sd).toBeGreaterThan(0.8 * usualSaddleNoise.pressCents);
	});

	test('plucks that were heard alike do not make the finger steadier than plucks typed alike do', () => {
		const pairs = (make: typeof heard) => [0, 1, 2].flatMap(() => [make(3, 0, 'harmonic'), make(3, 5, 'fretted')]);
		const press = (make: typeof heard) => saddleAfter(...pairs(make)).noise.pressCents;
		expect(press(heard)).toBeGreaterThan(0.7 * press((string, cents, how) => read(string, cents, how)));
	});

	// A plain third: by Young's law a quarter of a cent with the packet's stiffness.
	const stiff = {stiffness: {mean: 3e-4, sd: 3e-6}};

	test('the stiffness that was heard takes the place of the packet’s', () => {
		const told = saddleAfter(heard(3, 0, 'open', stiff)).model.string.openStiffness;
		expect(told / stiffnessFromInharmonicity(3e-4)).toBeCloseTo(1, 1);
		expect(saddleAfter(read(3, 0)).model.string.openStiffness).not.toBeCloseTo(told, 6);
	});

	test('and tells what the open string’s harmonic truly is', () => {
		// With the open string read in place of the harmonic, the octave's stretch is taken off: 600 log2((1 + 4B) / (1 + B)) = 0.78 cents.
		const stretch = harmonicAboveOctaveCents(stiffnessFromInharmonicity(3e-4));
		expect(stretch).toBeCloseTo(0.78, 1);
		const byOpen = saddleAfter(heard(3, 0, 'open', stiff), heard(3, 5, 'fretted', stiff));
		const byHarmonic = saddleAfter(heard(3, stretch, 'harmonic', stiff), heard(3, 5, 'fretted', stiff));
		expect(byOpen.errorCents.mean).toBeCloseTo(byHarmonic.errorCents.mean, 1);
	});

	test('a string put on anew has a stiffness of its own', () => {
		const worn = storyOf(...atPitch, heard(3, 0, 'open', stiff));
		expect(heardStiffnessOf(worn, 3)!.mean).toBeCloseTo(3e-4, 9);
		const fresh = storyOf(...atPitch, heard(3, 0, 'open', stiff), {type: 'StringFitted', string: 3});
		expect(heardStiffnessOf(fresh, 3)).toBeUndefined();
	});

	test('what a tuner would have made of the same two plucks is told beside it', () => {
		const ears = (...deeds: readonly Deed[]) => benchOf(storyOf(...atPitch, ...deeds)).strings[2]!.saddle!.ears;
		const pair = [
			heard(3, 0.5, 'harmonic', {tunerCents: 1}),
			heard(3, 4, 'fretted', {tunerCents: 9}),
			heard(3, 5, 'fretted', {tunerCents: 10}),
		];
		// 4.5 cents too sharp at 0.37 mm a cent (common practice, no source).
		expect(ears(...pair)).toEqual({cents: 4, tunerCents: 8.5, astrayMm: expect.closeTo(4.5 * 0.37, 0)});
		expect(ears(...pair.slice(0, 1))).toBeUndefined();
		const slack: Deed = {type: 'StringSlackened', string: 3};
		expect(ears(pair[0]!, slack, pair[1]!)).toBeUndefined();
		expect(ears(...pair, slack)).toMatchObject({cents: 4, tunerCents: 8.5});
		expect(ears(...pair, slack, {type: 'SaddleMoved', string: 3, travelMm: 1})).toBeUndefined();
		expect(ears(heard(3, 0, 'harmonic'), heard(3, 4, 'fretted', {tunerCents: 9}))).toEqual({cents: 4});
	});
});

test('the set-up sheet says what was heard, with its uncertainty and the string’s stiffness', () => {
	const story = storyOf(...allRead, heard(4, -20, 'open', {stiffness: {mean: 1.234e-4, sd: 1e-6}}));
	const {strings} = sheetData(setUpSheet(benchOf(story)));
	expect(strings[3]).toMatchObject({heardSdCents: 0.05, stiffness: 1.23e-4, read: true});
	expect(strings[2]).toMatchObject({heardSdCents: null, stiffness: null});
});
