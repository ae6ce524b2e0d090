import {mmPerInch, type Units} from '../../units/convert.ts';
import {formatTypedLength} from '../../units/length.ts';
import {deedLimits, sheetLimits, stringLimits} from '../limits.ts';
import type {Entry} from './entry.ts';
import {type Quantity, rangeOf, readQuantity} from './quantity.ts';

type LengthUnit = Pick<Units, 'length'>;

/** Usual values here are common practice, no source; what lies outside them is asked about, never refused. */

/**
 * A length in whatever unit is typed (`1.6`, `1.6mm`, `0.063in`, `1/16"`), bare numbers in the chosen one.
 * Answer in millimetres; ranges too.
 */
export function readLength(
	typed: string,
	units: LengthUnit,
	about: Pick<Quantity, 'what' | 'range' | 'usual' | 'ways' | 'zero'> & {readonly exampleMm: number},
): Entry<number> {
	const {exampleMm, ...rest} = about;
	return readQuantity(typed, {
		...rest,
		units: {...lengthWords, '': units.length === 'in' ? mmPerInch : 1},
		show: valueMm => formatTypedLength(valueMm, units),
		example: formatTypedLength(exampleMm, units),
	});
}

const lengthWords = {
	mm: 1,
	in: mmPerInch,
	'"': mmPerInch,
	"''": mmPerInch,
	inch: mmPerInch,
	inches: mmPerInch,
	cm: 10,
	thou: mmPerInch / 1000,
};

/** Scale length, mm. Bare numbers up to 60 are inches, above it millimetres: no scale could be both. */
export function readScaleLength(typed: string, units: LengthUnit): Entry<number> {
	const bareInches = /^\D*(\d+)(?![\d])/.exec(typed.trim());
	const unit = bareInches && Number(bareInches[1]) <= 60 ? 'in' : 'mm';
	return readQuantity(typed, {
		what: 'a scale length',
		units: {...lengthWords, '': unit === 'in' ? mmPerInch : 1},
		range: rangeOf(sheetLimits.scaleLengthMm),
		usual: [590, 760],
		show: valueMm => formatTypedLength(valueMm, units),
		example: units.length === 'in' ? '25.5 in' : '648',
	});
}

/** Action at the 12th fret, mm. */
export function readAction(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'an action',
		range: rangeOf(sheetLimits.actionMm),
		usual: [0.8, 3],
		exampleMm: 1.6,
	});
}

/** String height at the nut, mm. */
export function readNutHeight(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a height at the nut',
		range: rangeOf(sheetLimits.nutHeightMm),
		usual: [0.1, 1],
		exampleMm: 0.35,
	});
}

/** Height of the tail edge above level, mm, positive high: `0.5`, `0.5 low`, `level`. */
export function readTailHeight(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a tail height',
		ways: {high: 1, up: 1, low: -1, down: -1},
		zero: ['level'],
		range: rangeOf(deedLimits.tailMm),
		usual: [-8, 8],
		exampleMm: 0.5,
	});
}

/** Saddle travel, mm, positive back: `1.2`, `1.2 back`, `0.5 forward`. */
export function readSaddleTravel(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a saddle travel',
		ways: {back: 1, forward: -1},
		zero: ['none', 'no move'],
		range: rangeOf(deedLimits.travelMm),
		usual: [-6, 6],
		exampleMm: 1.2,
	});
}

/** Saddle position, mm behind the scale line. */
export function readSaddlePosition(typed: string, units: LengthUnit): Entry<number> {
	const ways = {back: 1, behind: 1, forward: -1} as const;
	return readLength(typed, units, {
		what: 'a saddle position',
		ways,
		range: rangeOf(stringLimits.saddleMm),
		usual: [-4, 10],
		exampleMm: 3,
	});
}

/** Distance from knife edge to tail edge, mm. */
export function readTailArm(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a tail distance',
		range: rangeOf(sheetLimits.tailArmMm),
		usual: [15, 60],
		exampleMm: 30,
	});
}

/** Advance of a claw screw per turn, mm. */
export function readScrewPitch(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a screw pitch',
		range: rangeOf(sheetLimits.clawScrewPitchMm),
		usual: [0.7, 2.2],
		exampleMm: 1.7,
	});
}
