import {expect, test} from 'vitest';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import {isWork, mayMovePitch} from '../../source/session/deed-nature.ts';
import {evolve, stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {storyOf} from '../helpers/bench.ts';
import {opened, read} from '../helpers/deeds.ts';

/** One of every kind; a new kind does not compile until it stands here. */
const one: {readonly [T in Deed['type']]: Extract<Deed, {type: T}>} = {
	SheetFilled: {type: 'SheetFilled', sheet: defaultSheet()},
	StagePassed: {type: 'StagePassed', stage: 'tune'},
	StageReopened: {type: 'StageReopened', stage: 'tune'},
	ItemTicked: {type: 'ItemTicked', item: 'strings sound', done: true},
	WayChosen: {type: 'WayChosen', choice: 'way', value: 'this'},
	NoteWritten: {type: 'NoteWritten', text: 'a note'},
	NutOpened: {type: 'NutOpened'},
	NutClamped: {type: 'NutClamped'},
	FineTunersCentred: {type: 'FineTunersCentred'},
	SupportPlaced: {type: 'SupportPlaced'},
	SupportRemoved: {type: 'SupportRemoved'},
	ClawTurned: {type: 'ClawTurned', trebleTurns: 1, bassTurns: 1},
	SpringsChanged: {type: 'SpringsChanged', springs: 4},
	PlateMeasured: {type: 'PlateMeasured', tailMm: 1, entered: '1'},
	StringRemoved: {type: 'StringRemoved', string: 2},
	StringFitted: {type: 'StringFitted', string: 2},
	StringSlackened: {type: 'StringSlackened', string: 2},
	StringStretched: {type: 'StringStretched', string: 2},
	PegTurned: {type: 'PegTurned', string: 2},
	FineTunerTurned: {type: 'FineTunerTurned', string: 2},
	PitchRead: {type: 'PitchRead', string: 2, how: 'open', cents: 1, entered: '1'},
	StringSlipped: {type: 'StringSlipped', string: 2},
	SaddleMoved: {type: 'SaddleMoved', string: 2, travelMm: 1},
	SaddleMeasured: {type: 'SaddleMeasured', string: 2, positionMm: 1},
	DayPassed: {type: 'DayPassed'},
	ArmMoved: {type: 'ArmMoved', motion: 'dive'},
};

test.each(Object.values(one))('$type: what may move a pitch is what makes earlier readings old in the story', deed => {
	const before = stateOf(storyOf([opened, read(2, -5)]));
	const after = evolve(before, {...deed, at: 0, entry: 9});
	expect(mayMovePitch(deed)).toBe(after.lastTouch !== before.lastTouch);
});

test('all work may move a pitch; the arm and a night do without being work', () => {
	const kinds = Object.values(one);
	expect(kinds.filter(deed => isWork(deed) && !mayMovePitch(deed))).toEqual([]);
	expect(kinds.filter(deed => !isWork(deed) && mayMovePitch(deed)).map(({type}) => type)).toEqual([
		'DayPassed',
		'ArmMoved',
	]);
});

const six = [1, 2, 3, 4, 5, 6] as const;

test('a string that slipped after the clamping is not read as shifted by the clamps', () => {
	const atPitch = six.map(string => read(string, 0));
	const story = [opened, ...atPitch, ...atPitch, {type: 'NutClamped'}, read(1, 3)] as const;
	const found = benchOf(storyOf([...story, one.StringSlipped, read(2, -20)])).locking().strings;
	expect(found[0]!.found!.mean).toBeCloseTo(3, 0);
	expect(found[1]!.found).toBeUndefined();
});

test('targets changed between two readings are no fault: each was said against the target of its time', () => {
	const sheet = defaultSheet();
	const atPitch = six.map(string => read(string, 0));
	// 1200 log2(440 / 442) = −7.85 cents.
	const sharper: Deed = {type: 'SheetFilled', sheet: {...sheet, referenceAHz: 442}};
	const first = [read(1, 0), read(2, 0), read(3, 0)];
	const second = [read(4, -7.85), read(5, -7.85), read(6, -7.85)];
	const {diagnosis} = benchOf(storyOf([opened, ...atPitch, ...atPitch, one.ArmMoved, ...first, sharper, ...second]));
	expect(diagnosis()!.verdict).toBe('sound');
});
