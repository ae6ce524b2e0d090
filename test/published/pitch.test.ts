import {expect, test} from 'vitest';
import {centsBetween, frequencyHz} from '../../source/music/pitch.ts';

/** Half of the last printed digit, unless a row says otherwise. */
const crc = 'CRC Handbook of Chemistry and Physics, table 14-22, equal temperament, A4 = 440 Hz';
const department = 'university physics department, table of note frequencies, A4 = 440 Hz';

test.each([
	{midi: 12, note: 'C0', hz: 16.352, within: 0.0005, source: crc},
	{midi: 40, note: 'E2', hz: 82.407, within: 0.0005, source: crc},
	{midi: 41, note: 'F2', hz: 87.307, within: 0.0005, source: crc},
	{midi: 60, note: 'C4', hz: 261.63, within: 0.005, source: crc},
	{midi: 64, note: 'E4', hz: 329.63, within: 0.005, source: crc},
	{midi: 84, note: 'C6', hz: 1046.5, within: 0.005, source: crc},
	{midi: 88, note: 'E6', hz: 1318.51, within: 0.005, source: crc},
	{midi: 45, note: 'A2', hz: 110, within: 0.005, source: department},
	{midi: 50, note: 'D3', hz: 146.83, within: 0.005, source: department},
	{midi: 55, note: 'G3', hz: 196, within: 0.005, source: department},
	{midi: 59, note: 'B3', hz: 246.94, within: 0.005, source: department},
	// Printed to ten decimals; the tolerance is ten times its last digit's half, for rounding in the power.
	{midi: 64, note: 'E4', hz: 329.6275569129, within: 1e-9, source: 'integer-sequence encyclopedia, entry for E4'},
])('$note is $hz Hz ($source)', ({midi, note, hz, within}) => {
	expect(Math.abs(frequencyHz(midi) - hz)).toBeLessThanOrEqual(within);
	expect(frequencyHz(note)).toBe(frequencyHz(midi));
});

/** M. B. Anderson, R. G. Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), printed to whole cents. */
test.each([
	{at: 'A3', hz: 220, cents: 8},
	{at: 'E4', hz: 329.63, cents: 5},
])('1 Hz at $at is about $cents cents', ({hz, cents}) => {
	expect(Math.abs(centsBetween(hz + 1, hz) - cents)).toBeLessThanOrEqual(0.5);
});

test('the mean-frequency formula for cents falls 46 short of an octave', () => {
	// Same paper: 1731 Δf / f̄ in place of 1200 log2, at f and 2f; printed to a whole cent.
	const [low, high] = [frequencyHz('A2'), frequencyHz('A3')];
	const approximate = (1731 * (high - low)) / ((high + low) / 2);
	expect(Math.abs(approximate - centsBetween(high, low) + 46)).toBeLessThanOrEqual(0.5);
});

test('the third partial of A2 stands 0.37 Hz above E4', () => {
	// Same paper, printed to 0.01 Hz.
	expect(Math.abs(3 * frequencyHz('A2') - frequencyHz('E4') - 0.37)).toBeLessThanOrEqual(0.005);
});
