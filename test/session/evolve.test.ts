import {describe, expect, test} from 'vitest';
import {stateOf} from '../../source/session/evolve.ts';
import type {Deed} from '../../source/session/facts.ts';
import {stringsInUse, touchedSince} from '../../source/session/state.ts';
import {filled, journalOf, opened, read, sheet} from '../helpers/deeds.ts';

const given = (...deeds: readonly Deed[]) => stateOf(journalOf(filled, opened, ...deeds).story);

describe('a guitar as it comes in', () => {
	test('has its strings on, its nut clamped and no support', () => {
		const state = stateOf([]);
		expect(state.nut).toBe('locked');
		expect(state.blocked).toBe(false);
		expect(state.strings[1].fitted).toBe('on');
		expect(state.sheet).toBeUndefined();
		expect(stringsInUse(state)).toEqual([]);
	});

	test('has as many strings as the sheet says', () => {
		expect(stringsInUse(given())).toEqual([1, 2, 3, 4, 5, 6]);
		expect(given().springs).toBe(3);
	});
});

describe('readings', () => {
	test('of one string, plucked again with nothing touched, are kept together for averaging', () => {
		const state = given(read(3, -4), read(5, 2), read(3, -3));
		expect(state.strings[3].readings.open?.cents).toEqual([-4, -3]);
		expect(touchedSince(state.strings[3], 'open')).toBe(0);
	});

	test('age when any other string is turned, because the bridge moves them all', () => {
		const state = given(read(3, -4), {type: 'PegTurned', string: 5}, read(3, 1));
		expect(state.strings[3].readings.open?.cents).toEqual([1]);
		const older = given(read(3, -4), {type: 'PegTurned', string: 5});
		expect(touchedSince(older.strings[3], 'open')).toBe(1);
		expect(older.lastTouch).toBe(3);
	});

	test('do not age through another string while the bridge is supported', () => {
		const state = given(
			{type: 'SupportPlaced'},
			read(3, -4),
			{type: 'PegTurned', string: 5},
			{type: 'ClawTurned', trebleTurns: 1, bassTurns: 1},
		);
		expect(touchedSince(state.strings[3], 'open')).toBe(0);
		expect(state.adjustments).toBe(2);
	});

	test('age through the string itself even when the bridge is supported', () => {
		const state = given({type: 'SupportPlaced'}, read(5, -4), {type: 'PegTurned', string: 5});
		expect(touchedSince(state.strings[5], 'open')).toBe(1);
	});

	test('age when the support comes out', () => {
		const state = given({type: 'SupportPlaced'}, read(3, -4), {type: 'SupportRemoved'});
		expect(touchedSince(state.strings[3], 'open')).toBe(1);
	});

	test.each<Deed>([
		{type: 'NutOpened'},
		{type: 'NutClamped'},
		{type: 'FineTunersCentred'},
		{type: 'ClawTurned', trebleTurns: 0.5, bassTurns: 0.5},
		{type: 'SpringsChanged', springs: 4},
		{type: 'StringSlackened', string: 1},
		{type: 'StringStretched', string: 1},
		{type: 'StringSlipped', string: 1},
		{type: 'FineTunerTurned', string: 1},
		{type: 'SaddleMoved', string: 1, travelMm: 1},
		{type: 'ArmMoved', motion: 'dive'},
	])('age through $type', deed => {
		expect(touchedSince(given(read(3, -4), deed).strings[3], 'open')).toBe(1);
	});

	test.each<Deed>([
		{type: 'StagePassed', stage: 'tune'},
		{type: 'NoteWritten', text: 'second fret worn'},
		{type: 'ItemTicked', item: 'posts', done: true},
		{type: 'WayChosen', choice: 'restring', value: 'one'},
		{type: 'PlateMeasured', tailMm: 1, entered: '1'},
		{type: 'SaddleMeasured', string: 3, positionMm: 2},
	])('do not age through $type, which moves nothing', deed => {
		expect(touchedSince(given(read(3, -4), deed).strings[3], 'open')).toBe(0);
	});

	test('sounded another way stand beside each other', () => {
		const state = given(read(3, 1, 'harmonic'), read(3, 5, 'fretted'));
		expect(state.strings[3].readings.harmonic?.cents).toEqual([1]);
		expect(state.strings[3].readings.fretted?.cents).toEqual([5]);
		expect(state.strings[3].lastHow).toBe('fretted');
	});

	test('at another fret are not averaged with these', () => {
		const at = (fret: number, cents: number): Deed => ({
			type: 'PitchRead',
			string: 3,
			how: 'fretted',
			fret,
			cents,
			entered: '',
		});
		expect(given(at(12, 4), at(5, 1)).strings[3].readings.fretted?.cents).toEqual([1]);
	});

	test('are gone with a string that is taken off', () => {
		const state = given(
			read(3, 1),
			{type: 'StringStretched', string: 3},
			{type: 'StringRemoved', string: 3},
			{type: 'StringFitted', string: 3},
		);
		expect(state.strings[3].readings).toEqual({});
		expect(state.strings[3].stretched).toBe(0);
		expect(state.strings[3].fitted).toBe('slack');
	});

	test('against a target that was changed afterwards no longer stand; the others do', () => {
		const strings = sheet.strings.map((row, index) => (index === 5 ? {...row, note: 'D2'} : row));
		const state = given(read(6, 3), read(1, 2), {type: 'SheetFilled', sheet: {...sheet, strings}});
		expect(state.strings[6].readings).toEqual({});
		expect(state.strings[1].readings.open?.cents).toEqual([2]);
	});

	test('against another reference A no longer stand', () => {
		const state = given(read(6, 3), {type: 'SheetFilled', sheet: {...sheet, referenceAHz: 442}});
		expect(state.strings[6].readings).toEqual({});
	});
});

describe('strings', () => {
	test('go off, slack and on', () => {
		const off: Deed = {type: 'StringRemoved', string: 2};
		const fit: Deed = {type: 'StringFitted', string: 2};
		const turn: Deed = {type: 'PegTurned', string: 2};
		expect(given(off).strings[2].fitted).toBe('off');
		expect(given(off, fit).strings[2].fitted).toBe('slack');
		expect(given(off, fit, turn).strings[2].fitted).toBe('on');
		expect(given({type: 'StringSlackened', string: 2}).strings[2].fitted).toBe('slack');
	});
});

describe('saddles', () => {
	test('stand where they were measured, plus what they were moved', () => {
		const state = given(
			{type: 'SaddleMeasured', string: 4, positionMm: 2},
			{type: 'SaddleMoved', string: 4, travelMm: 1.5},
		);
		expect(state.strings[4].saddleMm).toBe(3.5);
		expect(state.strings[4].saddleMovedMm).toBe(1.5);
	});

	test('that were never measured have moved, but stand nowhere known', () => {
		const state = given({type: 'SaddleMoved', string: 4, travelMm: 1.5, hole: 'back'});
		expect(state.strings[4].saddleMm).toBeUndefined();
		expect(state.strings[4]).toMatchObject({saddleMovedMm: 1.5, hole: 'back'});
	});

	test('stay where they were moved to when the sheet is edited elsewhere, and follow it when it is edited here', () => {
		const withSaddle = (saddleMm: number, springs: number) => ({
			...sheet,
			springs,
			strings: sheet.strings.map(row => ({...row, saddleMm})),
		});
		const start: Deed = {type: 'SheetFilled', sheet: withSaddle(1, 3)};
		const move: Deed = {type: 'SaddleMoved', string: 4, travelMm: 2};
		expect(given(start, move, {type: 'SheetFilled', sheet: withSaddle(1, 4)}).strings[4].saddleMm).toBe(3);
		expect(given(start, move, {type: 'SheetFilled', sheet: withSaddle(5, 3)}).strings[4].saddleMm).toBe(5);
	});
});

describe('claw, springs and plate', () => {
	test('turns add up, screw by screw; their mean is what moves the plate', () => {
		const turn = (trebleTurns: number, bassTurns: number): Deed => ({type: 'ClawTurned', trebleTurns, bassTurns});
		expect(given(turn(1, 1), turn(0.5, -0.5)).claw).toEqual({meanTurns: 1, trebleTurns: 1.5, bassTurns: 0.5});
	});

	test('a spring added stays added when the sheet is edited elsewhere', () => {
		const state = given(
			{type: 'SpringsChanged', springs: 4},
			{type: 'SheetFilled', sheet: {...sheet, name: 'Renamed'}},
		);
		expect(state.springs).toBe(4);
	});

	test('a measured plate ages like a reading', () => {
		const measured: Deed = {type: 'PlateMeasured', tailMm: 1.2, entered: '1.2'};
		expect(given(measured).plate).toEqual({tailMm: 1.2, touchedSince: 0});
		expect(given(measured, {type: 'PegTurned', string: 1}).plate?.touchedSince).toBe(1);
	});
});

describe('stages', () => {
	test('a reopened stage stays open until it is passed itself', () => {
		const passed = (stage: string): Deed => ({type: 'StagePassed', stage});
		const reopened: Deed = {type: 'StageReopened', stage: 'unlock'};
		expect(given(passed('unlock'), passed('tune'), reopened).reopenedStage).toBe('unlock');
		expect(given(passed('unlock'), reopened, passed('tune')).reopenedStage).toBe('unlock');
		const state = given(passed('unlock'), reopened, passed('unlock'));
		expect(state.reopenedStage).toBeUndefined();
		expect(state.passedStages).toEqual(['unlock']);
	});
});
