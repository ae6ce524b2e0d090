import {mmPerInch, type Units} from '../../units/convert.ts';
import {formatTypedLength} from '../../units/length.ts';
import {formatNumber, formatTrimmed} from '../../units/number.ts';
import {formatDegrees} from '../../units/quantities.ts';
import type {Entry} from './entry.ts';
import {type Quantity, readQuantity} from './quantity.ts';

type LengthUnit = Pick<Units, 'length'>;

/** Ranges and usual values here are common practice, no source; the usual ones are asked about, never refused. */

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
		range: [400, 900],
		usual: [590, 760],
		show: valueMm => formatTypedLength(valueMm, units),
		example: units.length === 'in' ? '25.5 in' : '648',
	});
}

/** Action at the 12th fret, mm. */
export function readAction(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {what: 'an action', range: [0.3, 6], usual: [0.8, 3], exampleMm: 1.6});
}

/** String height at the nut, mm. */
export function readNutHeight(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {what: 'a height at the nut', range: [0, 2], usual: [0.1, 1], exampleMm: 0.35});
}

/** Height of the tail edge above level, mm, positive high: `0.5`, `0.5 low`, `level`. */
export function readTailHeight(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {
		what: 'a tail height',
		ways: {high: 1, up: 1, low: -1, down: -1},
		zero: ['level'],
		range: [-20, 20],
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
		range: [-15, 15],
		usual: [-6, 6],
		exampleMm: 1.2,
	});
}

/** Saddle position, mm behind the scale line. */
export function readSaddlePosition(typed: string, units: LengthUnit): Entry<number> {
	const ways = {back: 1, behind: 1, forward: -1} as const;
	return readLength(typed, units, {what: 'a saddle position', ways, range: [-15, 20], usual: [-4, 10], exampleMm: 3});
}

/** Distance from knife edge to tail edge, mm. */
export function readTailArm(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {what: 'a tail distance', range: [5, 100], usual: [15, 60], exampleMm: 30});
}

/** Advance of a claw screw per turn, mm. */
export function readScrewPitch(typed: string, units: LengthUnit): Entry<number> {
	return readLength(typed, units, {what: 'a screw pitch', range: [0.3, 4], usual: [0.7, 2.2], exampleMm: 1.7});
}

/** Turns, positive tighter: `1/4`, `-1 1/2`, `0.5`, `3/8 turn looser`. */
export function readTurns(typed: string): Entry<number> {
	return readQuantity(typed, {
		what: 'a number of turns',
		units: {'': 1, turn: 1, turns: 1},
		ways: {tighter: 1, looser: -1},
		zero: ['no turn', 'none'],
		range: [-20, 20],
		usual: [-4, 4],
		show: value => formatTrimmed(value, 3),
		example: '1/4 tighter',
	});
}

/**
 * Turns of both claw screws, positive tighter: one number for both alike, or
 * `treble 1/2 bass 1/4` in either order, or `1/2 ; 1/4` treble first.
 */
export function readClawTurns(typed: string): Entry<{readonly trebleTurns: number; readonly bassTurns: number}> {
	const named = /^\s*(treble|bass)\s(.+?)[\s,;]+(treble|bass)\s(.+)$/i.exec(typed);
	const pair = /^([^;&]+)[;&]([^;&]+)$/.exec(typed);
	const isNamed = named !== null && named[1]?.toLowerCase() !== named[3]?.toLowerCase();
	const trebleFirst = isNamed ? named[1]?.toLowerCase() === 'treble' : true;
	const [one, other] = isNamed
		? [named[2] ?? '', named[4] ?? '']
		: pair
			? [pair[1] ?? '', pair[2] ?? '']
			: [typed, typed];
	const [first, second] = [readTurns(one), readTurns(other)];
	if (first.kind === 'refused' || second.kind === 'refused') {
		return first.kind === 'refused' ? first : (second as Extract<typeof second, {kind: 'refused'}>);
	}

	const value = trebleFirst
		? {trebleTurns: first.value, bassTurns: second.value}
		: {trebleTurns: second.value, bassTurns: first.value};
	const doubtful = [first, second].find(({kind}) => kind === 'doubtful');
	const entered = typed.trim();
	return doubtful?.kind === 'doubtful' ? {...doubtful, value, entered} : {kind: 'value', value, entered};
}

/** Angle of the plate, degrees, positive tail high: `1.2deg`, `1.2°`, `0.5 low`, `level`. */
export function readAngle(typed: string): Entry<number> {
	return readQuantity(typed, {
		what: 'a plate angle',
		units: {'': 1, deg: 1, '°': 1, degree: 1, degrees: 1},
		ways: {high: 1, up: 1, low: -1, down: -1},
		zero: ['level'],
		range: [-30, 30],
		usual: [-12, 12],
		show: value => formatDegrees(value),
		example: '0.5 deg',
	});
}

/** A whole number from `range`; `what` with its article: "a number of springs". */
export function readWhole(
	typed: string,
	what: string,
	range: readonly [number, number],
	example: number,
): Entry<number> {
	return readQuantity(typed, {
		what,
		units: {'': 1, string: 1, strings: 1, spring: 1, springs: 1},
		range,
		whole: true,
		show: value => formatNumber(value, 0),
		example: formatNumber(example, 0),
	});
}

/** Pitch of A4, hertz: `440`, `432 Hz`, `A=442`. */
export function readReferenceA(typed: string): Entry<number> {
	return readQuantity(typed.replace(/^\s*a\d?\s*=?\s*(?=\d)/i, ''), {
		what: 'a reference A',
		units: {'': 1, hz: 1, hertz: 1},
		range: [400, 480],
		usual: [415, 466],
		show: value => `${formatTrimmed(value, 2)} Hz`,
		example: '440',
	});
}

/** Tolerance, cents, either way: `1`, `2 cents`. */
export function readTolerance(typed: string): Entry<number> {
	return readCents(typed.replace(/^\s*(±|\+-|\+\/-)/, ''), 'a tolerance', [0.1, 50], [0.5, 10], 1);
}

/** Wanted offset from equal temperament or between fretted note and harmonic, cents, positive sharp. */
export function readCentsOffset(typed: string): Entry<number> {
	return readCents(typed, 'an offset', [-100, 100], [-15, 15], -2);
}

function readCents(
	typed: string,
	what: string,
	range: readonly [number, number],
	usual: readonly [number, number],
	example: number,
): Entry<number> {
	return readQuantity(typed, {
		what,
		units: {'': 1, c: 1, ct: 1, cent: 1, cents: 1},
		ways: {sharp: 1, flat: -1},
		range,
		usual,
		show: value => `${formatTrimmed(value, 1)} cents`,
		example: `${example}`,
	});
}
