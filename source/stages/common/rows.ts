import {type StringNumber, stringNumbers} from '../../music/string-number.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import {formatGauge} from '../../units/length.ts';

/**
 * The row of one string.
 * @throws {RangeError} If the instrument has no such string.
 */
export function rowOf(bench: Bench, string: StringNumber): StringRow {
	const row = bench.strings.find(row => row.string === string);
	if (!row) throw new RangeError(`rowOf: expected string to be 1 to ${bench.strings.length}, got ${string}`);
	return row;
}

/** How a string is called everywhere: number and note. */
export function nameOf({string, note}: StringRow): string {
	return `string ${string} (${note})`;
}

/** Gauge as sets are sold, whatever lengths are shown in: `.009`, `.042w`. */
export function gaugeShown({gaugeThou, wound}: StringRow): string {
	return formatGauge(gaugeThou, wound, {length: 'in'});
}

/** `1`, `1 and 3`, `1, 3 and 6`. */
export function listed(strings: readonly (string | number)[]): string {
	if (strings.length < 2) return strings.join('');
	return `${strings.slice(0, -1).join(', ')} and ${strings.at(-1)}`;
}

/** `string 1`, `strings 1, 3 and 6`. */
export function stringsNamed(strings: readonly number[]): string {
	return `${strings.length === 1 ? 'string' : 'strings'} ${listed(strings)}`;
}

/** `1 3 6` typed: strings of these rows, none twice; undefined if it is anything else. */
export function stringsIn(text: string, rows: readonly StringRow[]): readonly StringNumber[] | undefined {
	const typed = text.trim().split(/[\s,;]+/);
	const found = stringNumbers.filter(
		string => rows.some(row => row.string === string) && typed.includes(String(string)),
	);
	return found.length === typed.length && found.length > 0 ? found : undefined;
}
