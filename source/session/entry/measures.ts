import {formatNumber, formatTrimmed} from '../../units/number.ts';
import {formatDegrees} from '../../units/quantities.ts';
import {deedLimits, type Limit, sheetLimits, stringLimits} from '../limits.ts';
import type {Entry} from './entry.ts';
import {rangeOf, readQuantity} from './quantity.ts';

export * from './lengths.ts';

/** Turns, positive tighter: `1/4`, `-1 1/2`, `0.5`, `3/8 turn looser`. */
export function readTurns(typed: string): Entry<number> {
	return readQuantity(typed, {
		what: 'a number of turns',
		units: {'': 1, turn: 1, turns: 1},
		ways: {tighter: 1, looser: -1},
		zero: ['no turn', 'none'],
		range: rangeOf(deedLimits.clawTurns),
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
		range: rangeOf(sheetLimits.referenceAHz),
		usual: [415, 466],
		show: value => `${formatTrimmed(value, 2)} Hz`,
		example: '440',
	});
}

/** Tolerance, cents, either way: `1`, `2 cents`. */
export function readTolerance(typed: string): Entry<number> {
	return readCents(typed.replace(/^\s*(±|\+-|\+\/-)/, ''), 'a tolerance', sheetLimits.openToleranceCents, [0.5, 10]);
}

/** Wanted offset from equal temperament or between fretted note and harmonic, cents, positive sharp. */
export function readCentsOffset(typed: string): Entry<number> {
	return readCents(typed, 'an offset', stringLimits.offsetCents, [-15, 15]);
}

function readCents(typed: string, what: string, limit: Limit, usual: readonly [number, number]): Entry<number> {
	return readQuantity(typed, {
		what,
		units: {'': 1, c: 1, ct: 1, cent: 1, cents: 1},
		ways: {sharp: 1, flat: -1},
		range: rangeOf(limit),
		usual,
		show: value => `${formatTrimmed(value, 1)} cents`,
		example: `${limit.example}`,
	});
}
