import type {Limit} from '../limits.ts';
import {cleanEntry, decimal, decimalPattern, digitsForLetters, expandFractions} from './clean.ts';
import {doubt, type Entry, longestEntry, type Refused, refuse, tooLong} from './entry.ts';

/**
 * One kind of number that can be typed. Values are in the unit that the
 * reader of the entry states in its name; `units` gives factors to it.
 */
export interface Quantity {
	/** For the words: "scale length". */
	readonly what: string;
	/** Unit word to factor, lower case; `''` is the unit of a bare number. */
	readonly units: Readonly<Record<string, number>>;
	/** Words for the two ways, `{back: 1, forward: -1}`; none if the sign alone says it. */
	readonly ways?: Readonly<Record<string, 1 | -1>>;
	/** Words that mean zero, `level`. */
	readonly zero?: readonly string[];
	/** Allowed, both ends included. */
	readonly range: readonly [low: number, high: number];
	/** Outside of this a value is asked about. */
	readonly usual?: readonly [low: number, high: number];
	/** Only whole numbers. */
	readonly whole?: boolean;
	/** How a value is shown in the words. */
	readonly show: (value: number) => string;
	/** An entry that would be taken. */
	readonly example: string;
}

/** The allowed range that the sheet and the facts are checked against. */
export function rangeOf({low, high}: Limit): readonly [low: number, high: number] {
	return [low, high];
}

const pattern = new RegExp(
	String.raw`^([+-]?)\s*(?:(\d+)(?:\s+|-)(\d+)\s*/\s*(\d+)|(\d+)\s*/\s*(\d+)|(${decimalPattern}))(?![\d.,/])\s*(.*)$`,
);

/** Reads one number with fractions (`24 3/4`, `25½`), decimal comma, unit, and words for the sign. Total. */
export function readQuantity(typed: string, quantity: Quantity): Entry<number> {
	const {text, meant} = cleanEntry(expandFractions(typed));
	const {entered} = cleanEntry(typed);
	const {range, usual, show} = quantity;
	const allowed = `${quantity.what} from ${show(range[0])} to ${show(range[1])}`;
	const slip = (code: Refused['code'], wrong: string, perhaps?: string) =>
		refuse({code, read: entered, wrong, allowed, example: quantity.example, ...(perhaps !== undefined && {perhaps})});
	if (entered.length > longestEntry) {
		return tooLong(entered, allowed, quantity.example);
	}

	if (text === '') {
		return slip('empty', `${quantity.what} was expected`);
	}

	const found = quantityIn(text, quantity);
	if (found === undefined) {
		const repaired = digitsForLetters(text);
		return repaired !== undefined && isTaken(repaired, quantity)
			? slip('letter-for-digit', 'a letter (O, l or I) stands where a digit may be meant', repaired)
			: slip('not-understood', `this cannot be read as ${quantity.what}`);
	}

	if (!isAllowed(found.value, quantity)) {
		return slip('out-of-range', whyNot(found.value, quantity), found.bare ? otherUnit(text, quantity) : undefined);
	}

	if (usual && !meant && (found.value < usual[0] || found.value > usual[1])) {
		const why = `${show(found.value)} is unusual for ${quantity.what}, which mostly lies from ${show(usual[0])} to ${show(usual[1])}`;
		return {kind: 'doubtful', said: doubt(entered, why), value: found.value, entered};
	}

	return {kind: 'value', value: found.value, entered};
}

interface Found {
	readonly value: number;
	/** No unit was typed. */
	readonly bare: boolean;
}

/** Value in the base unit, or `undefined` if it cannot be read. */
function quantityIn(text: string, {units, ways = {}, zero = []}: Quantity): Found | undefined {
	const lower = text.toLowerCase();
	if (zero.includes(lower)) {
		return {value: 0, bare: false};
	}

	const [, sign = '', whole, top, bottom, top1, bottom1, number, rest = ''] = pattern.exec(lower) ?? [];
	const size =
		number === undefined ? Number(whole ?? 0) + Number(top ?? top1) / Number(bottom ?? bottom1) : decimal(number);
	if (!Number.isFinite(size)) {
		return undefined;
	}

	const words = rest.split(' ').filter(Boolean);
	const unit = words[0] !== undefined && Object.hasOwn(units, words[0]) ? words.shift()! : '';
	const way = words[0] !== undefined && Object.hasOwn(ways, words[0]) ? ways[words.shift()!] : undefined;
	// A sign and a word might contradict each other: only one of them.
	if (words.length > 0 || (way !== undefined && sign !== '') || units[unit] === undefined) {
		return undefined;
	}

	// Adding zero turns −0 into 0.
	return {value: size * units[unit] * (way ?? (sign === '-' ? -1 : 1)) + 0, bare: unit === ''};
}

function isAllowed(value: number, {range, whole}: Quantity): boolean {
	// A billionth of slack: 1/64 in and its decimals must fall on the same side of a bound.
	const slack = 1e-9;
	return value >= range[0] - slack && value <= range[1] + slack && (!whole || Number.isInteger(value));
}

function whyNot(value: number, {what, range, show, whole}: Quantity): string {
	if (whole && value >= range[0] && value <= range[1]) {
		return `${what} is a whole number`;
	}

	return value < range[0] ? `below ${show(range[0])}` : `above ${show(range[1])}`;
}

function isTaken(text: string, quantity: Quantity): boolean {
	const found = quantityIn(text, quantity);
	return found !== undefined && isAllowed(found.value, quantity);
}

/** "1.6" where inches are usual: perhaps millimetres were meant. */
function otherUnit(text: string, quantity: Quantity): string | undefined {
	const perhaps = Object.keys(quantity.units)
		.filter(unit => unit !== '')
		.map(unit => `${text} ${unit}`);
	return perhaps.find(candidate => isTaken(candidate, quantity));
}
