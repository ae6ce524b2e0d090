import {describe, expect, test} from 'vitest';
import {
	readAction,
	readAngle,
	readCentsOffset,
	readClawTurns,
	readNutHeight,
	readReferenceA,
	readSaddlePosition,
	readSaddleTravel,
	readScaleLength,
	readScrewPitch,
	readTailArm,
	readTailHeight,
	readTolerance,
	readTurns,
	readWhole,
} from '../../../source/session/entry/measures.ts';

const mm = {length: 'mm'} as const;
const inch = {length: 'in'} as const;
const springs = (text: string) => readWhole(text, 'a number of springs', [1, 6], 3);

describe('taken as typed', () => {
	test.each([
		['action', readAction('1.6', mm), 1.6],
		['action, comma', readAction('1,6', mm), 1.6],
		['action, unit against the chosen one', readAction('1.6mm', inch), 1.6],
		['action, inches', readAction('0.063in', mm), 1.6002],
		['action, a fraction of an inch', readAction('1/16"', mm), 1.5875],
		['action, 64ths', readAction('4/64 in', mm), 1.5875],
		['action, bare where inches are chosen', readAction('1/16', inch), 1.5875],
		['action, thousandths', readAction('63 thou', mm), 1.6002],
		['nut', readNutHeight('0.35', mm), 0.35],
		['tail, level', readTailHeight('level', mm), 0],
		['tail, sign', readTailHeight('-0.5', mm), -0.5],
		['tail, word', readTailHeight('0.5 mm low', mm), -0.5],
		['travel, back', readSaddleTravel('1.2 back', mm), 1.2],
		['travel, forward', readSaddleTravel('0.5 forward', mm), -0.5],
		['position', readSaddlePosition('3,2', mm), 3.2],
		['tail arm', readTailArm('30', mm), 30],
		['screw pitch', readScrewPitch('1.7', mm), 1.7],
		['scale, mm', readScaleLength('648', mm), 648],
		['scale, inches unasked', readScaleLength('25.5', mm), 647.7],
		['scale, mm though inches are chosen', readScaleLength('648', inch), 648],
		['scale, unit', readScaleLength('25.5in', mm), 647.7],
		['scale, mixed number', readScaleLength('24 3/4', mm), 628.65],
		['scale, mixed number with a hyphen', readScaleLength('24-3/4"', mm), 628.65],
		['scale, one character for a half', readScaleLength('25½', mm), 647.7],
		['turns', readTurns('1/4'), 0.25],
		['turns, mixed and negative', readTurns('-1 1/2'), -1.5],
		['turns, decimal', readTurns('0.5'), 0.5],
		['turns, words', readTurns('1 1/4 turns looser'), -1.25],
		['angle', readAngle('1.2deg'), 1.2],
		['angle, sign', readAngle('−1.2°'), -1.2],
		['springs', springs('3'), 3],
		['springs, word', springs('4 springs'), 4],
		['reference A', readReferenceA('440'), 440],
		['reference A, as printed on scores', readReferenceA('A=442'), 442],
		['reference A, as noted', readReferenceA('a4 = 432 Hz'), 432],
		['tolerance', readTolerance('±1 cent'), 1],
		['offset', readCentsOffset('2 flat'), -2],
	])('%s', (_name, entry, value) => {
		expect(entry).toMatchObject({kind: 'value', value: expect.closeTo(value, 9)});
	});

	test.each([
		['1/2', 0.5, 0.5],
		['treble 1/2 bass 1/4', 0.5, 0.25],
		['Bass -1/4, treble 1/2 looser', -0.5, -0.25],
		['1/2 ; 1/4', 0.5, 0.25],
		['1 1/4', 1.25, 1.25],
	])('claw screws: %j', (text, trebleTurns, bassTurns) => {
		expect(readClawTurns(text)).toMatchObject({kind: 'value', value: {trebleTurns, bassTurns}});
	});
});

describe('refused with what was read, what is allowed, an example', () => {
	test.each([
		[
			readAction('', mm),
			'Read nothing: an action was expected. Allowed: an action from 0.3 mm to 8 mm. Example: 1.6 mm',
		],
		[
			readAction('16', mm),
			'Read “16”: above 8 mm; did you mean 16 thou? Allowed: an action from 0.3 mm to 8 mm. Example: 1.6 mm',
		],
		[
			readAction('1.6', inch),
			'Read “1.6”: above 0.315 in; did you mean 1.6 mm? Allowed: an action from 0.012 in to 0.315 in. Example: 0.063 in',
		],
		[
			readAction('1.6 kg', mm),
			'Read “1.6 kg”: this cannot be read as an action. Allowed: an action from 0.3 mm to 8 mm. Example: 1.6 mm',
		],
		[
			readAction('l.6', mm),
			'Read “l.6”: a letter (O, l or I) stands where a digit may be meant; did you mean 1.6? Allowed: an action from 0.3 mm to 8 mm. Example: 1.6 mm',
		],
		[
			readScaleLength('6480', mm),
			'Read “6480”: above 800 mm. Allowed: a scale length from 500 mm to 800 mm. Example: 648',
		],
		[
			readTurns('1/0'),
			'Read “1/0”: this cannot be read as a number of turns. Allowed: a number of turns from −12 to 12. Example: 1/4 tighter',
		],
		[
			readTurns('-1 looser'),
			'Read “-1 looser”: this cannot be read as a number of turns. Allowed: a number of turns from −12 to 12. Example: 1/4 tighter',
		],
		[
			springs('2.5'),
			'Read “2.5”: a number of springs is a whole number. Allowed: a number of springs from 1 to 6. Example: 3',
		],
		[springs('9'), 'Read “9”: above 6. Allowed: a number of springs from 1 to 6. Example: 3'],
		[readReferenceA('399'), 'Read “399”: below 400 Hz. Allowed: a reference A from 400 Hz to 480 Hz. Example: 440'],
		[
			readReferenceA('1e3'),
			'Read “1e3”: this cannot be read as a reference A. Allowed: a reference A from 400 Hz to 480 Hz. Example: 440',
		],
	])('%#', (entry, said) => {
		expect(entry).toMatchObject({kind: 'refused', said});
	});
});

describe('asked about when unusual, and taken when meant', () => {
	test('a scale of a short guitar', () => {
		expect(readScaleLength('580', mm)).toEqual({
			kind: 'doubtful',
			said: 'Read “580”: 580 mm is unusual for a scale length, which mostly lies from 590 mm to 760 mm.',
			value: 580,
			entered: '580',
		});
		expect(readScaleLength('580!', mm)).toEqual({kind: 'value', value: 580, entered: '580!'});
	});

	test('many turns of one claw screw keep the other', () => {
		expect(readClawTurns('treble 6 bass 1')).toMatchObject({
			kind: 'doubtful',
			value: {trebleTurns: 6, bassTurns: 1},
			entered: 'treble 6 bass 1',
		});
	});
});
