import fc from 'fast-check';
import stringWidth from 'string-width';
import {describe, expect, test} from 'vitest';
import {toAscii} from '../../source/units/ascii.ts';
import {formatCents, formatCentsSpread, formatCentsUnit, formatCentsWords} from '../../source/units/cents.ts';
import {
	formatGauge,
	formatLength,
	formatLengthSpread,
	formatSixtyFourths,
	formatTail,
	formatTravel,
	formatTypedLength,
	gaugeThouFromMm,
} from '../../source/units/length.ts';
import {formatNumber, formatTrimmed} from '../../source/units/number.ts';
import {
	formatAngle,
	formatCount,
	formatDegrees,
	formatForce,
	formatHertz,
	formatPercent,
} from '../../source/units/quantities.ts';
import {formatTurns, formatTurnsShort, formatTurnsSpread} from '../../source/units/turns.ts';

const mm = {length: 'mm'} as const;
const inch = {length: 'in'} as const;

describe('each formatter says what its doc says', () => {
	test.each([
		[formatNumber(-0.04, 1), '0.0'],
		[formatNumber(Number.NaN, 1), '—'],
		[formatTrimmed(648, 2), '648'],
		[formatTrimmed(640, 0), '640'],
		[formatTrimmed(25.5, 3), '25.5'],
		[formatCents(3.24), '+3.2'],
		[formatCents(-12), '−12.0'],
		[formatCents(-0.01), '0.0'],
		[formatCents(229.4, 0), '+229'],
		[formatCentsUnit(3.2), '+3.2 cents'],
		[formatCentsUnit(-1), '−1.0 cent'],
		[formatCentsUnit(21, 0), '+21 cents'],
		[formatCentsWords(3.24), '3.2 cents sharp'],
		[formatCentsWords(-1, 0), '1 cent flat'],
		[formatCentsWords(0.04), 'in tune'],
		[formatCentsSpread({mean: 3.24, sd: 0.25}), '+3.2 ±0.4'],
		[formatCentsSpread({mean: -123.4, sd: 10}), '−123 ±16'],
		[formatCentsSpread({mean: 0, sd: 0}), '0.0 ±0.1'],
		[formatLength(1.2399, mm), '1.24 mm'],
		[formatLength(1.24, inch), '0.049 in'],
		[formatLength(-1.24, mm, {signed: true}), '−1.24 mm'],
		[formatTypedLength(648, mm), '648 mm'],
		[formatTypedLength(647.7, inch), '25.5 in'],
		[formatTypedLength(1.6, mm), '1.6 mm'],
		[formatLengthSpread({mean: 1.24, sd: 0.06}, mm, {signed: true}), '+1.24 ±0.10 mm'],
		[formatTravel(1.24, mm), '1.24 mm back'],
		[formatTravel(-0.4, mm), '0.40 mm forward'],
		[formatTravel(0.001, mm), 'no move'],
		[formatTail(0.4, mm), '0.40 mm high'],
		[formatTail(-0.4, inch), '0.016 in low'],
		[formatTail(-0.004, mm), 'level'],
		[formatSixtyFourths(1.6), '4/64 in'],
		[formatSixtyFourths(647.7), '25 32/64 in'],
		[formatSixtyFourths(0), '0 in'],
		[formatSixtyFourths(-1.6), '−4/64 in'],
		[formatSixtyFourths(25.39), '1 in'],
		[formatGauge(9, false, inch), '.009'],
		[formatGauge(9.5, false, inch), '.0095'],
		[formatGauge(42, true, inch), '.042w'],
		[formatGauge(42, true, mm), '1.07 mm w'],
		[formatGauge(9, false, mm), '0.23 mm'],
		[formatTurns(0.375), '3/8 turn tighter'],
		[formatTurns(-1.26), '1 1/4 turns looser'],
		[formatTurns(1), '1 turn tighter'],
		[formatTurns(-1.05), '1 turn looser'],
		[formatTurns(2.5), '2 1/2 turns tighter'],
		[formatTurns(0.03), 'a hair tighter'],
		[formatTurns(0), 'no turn'],
		[formatTurnsShort(0.375), '+3/8'],
		[formatTurnsShort(-1.25), '−1 1/4'],
		[formatTurnsShort(0.01), '0'],
		[formatTurnsSpread({mean: 0.375, sd: 0.05}), '3/8 turn tighter, give or take 1/8'],
		[formatTurnsSpread({mean: 0.375, sd: 0.1}), '3/8 turn tighter, give or take 1/4'],
		[formatTurnsSpread({mean: -0.5, sd: 0}), '1/2 turn looser, give or take 1/8'],
		[formatForce(65.89, {force: 'N'}), '65.9 N'],
		[formatForce(65.89, {force: 'lbf'}), '14.8 lbf'],
		[formatForce(65.89, {force: 'kgf'}), '6.72 kgf'],
		[formatHertz(82.4069), '82.41 Hz'],
		[formatPercent(0.529), '53 %'],
		[formatDegrees(-1.21, {signed: true}), '−1.2°'],
		[formatAngle(0.085), '4.9°'],
		[formatCount(1, 'string'), '1 string'],
		[formatCount(3, 'string'), '3 strings'],
		[toAscii('−12.0 ±0.4 — 1.2°…'), '-12.0 ~0.4 - 1.2d.'],
	])('%s', (shown, expected) => {
		expect(shown).toBe(expected);
	});
});

describe('laws', () => {
	const any = fc.double();

	test('no formatter ever shows NaN, Infinity, an exponent or a hyphen for a minus', () => {
		const usual = fc.double({min: -1e6, max: 1e6, noNaN: true});
		fc.assert(
			fc.property(fc.oneof(usual, fc.double()), value => {
				const shown = [
					formatCents(value),
					formatCentsWords(value),
					formatCentsSpread({mean: value, sd: Math.abs(value)}),
					formatLength(value, mm),
					formatTravel(value, inch),
					formatTail(value, mm),
					formatSixtyFourths(value),
					formatTurns(value),
					formatTurnsShort(value),
					formatForce(value, {force: 'lbf'}),
					formatPercent(value),
				];
				expect(shown.join(' ')).not.toMatch(/NaN|Infinity|\de|-|−0(\.0+)? /);
			}),
		);
	});

	test('a shown number is the number, to half of its last digit', () => {
		fc.assert(
			fc.property(fc.double({min: -1e6, max: 1e6, noNaN: true}), fc.integer({min: 0, max: 3}), (value, decimals) => {
				const back = Number(formatNumber(value, decimals, {signed: true}).replace('−', '-'));
				expect(Math.abs(back - value)).toBeLessThanOrEqual(0.5000001 * 10 ** -decimals);
			}),
		);
	});

	test('ASCII has one cell for one', () => {
		fc.assert(
			fc.property(fc.string({unit: 'grapheme'}), any, (text, value) => {
				const shown = `${text} ${formatCents(value)}`;
				const ascii = toAscii(shown);
				expect(stringWidth(ascii)).toBe(stringWidth(shown));
				// biome-ignore lint/suspicious/noControlCharactersInRegex: the whole of ASCII is meant.
				expect(ascii).toMatch(/^[\u0000-\u007F]*$/);
			}),
		);
		expect(toAscii('e\u0301\u0301 字 \u{1F3B8} −1')).toBe('e ?? ?? -1');
	});

	test('a gauge in millimetres comes back within a tenth of a thousandth', () => {
		fc.assert(
			fc.property(fc.integer({min: 7, max: 90}), thou => {
				expect(gaugeThouFromMm((thou * 25.4) / 1000)).toBe(thou);
			}),
		);
	});
});
