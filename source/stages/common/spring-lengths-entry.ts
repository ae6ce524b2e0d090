import {cleanEntry, expandFractions} from '../../session/entry/clean.ts';
import {doubt, type Entry, longestEntry, type Refused, refuse, tooLong} from '../../session/entry/entry.ts';
import {readLength} from '../../session/entry/measures.ts';
import {type Quantity, rangeOf, readQuantity} from '../../session/entry/quantity.ts';
import {springBody, springStretch} from '../../session/limits.ts';
import {type InstrumentSheet, stretchMm} from '../../session/sheet.ts';
import {mmTo} from '../../units/convert.ts';
import {formatTypedLength} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';

type Lengths = NonNullable<InstrumentSheet['springLengthsMm']>;
type Units = InstrumentSheet['units'];

const exampleMm: Lengths = [springBody.example, springBody.example - springStretch.example];
/** Springs that stand stretched by less or more than this are asked about, mm. Common practice, no source. */
const usualStretchMm = [4, 40] as const;
/** Turns of a spring, and its wire, mm. Wide, to catch a slip of the hand. */
const turnsRange = [5, 200] as const;
const wireRangeMm = [0.4, 3] as const;

/** What the two lengths look like: `64 47`, in inches `2.52 1.85`. */
export function springLengthsExample({length}: Units): string {
	return exampleMm.map(each => formatTrimmed(mmTo(each, length), length === 'in' ? 2 : 0)).join(' ');
}

/** The second as turns times wire: `64 47x1.0`. */
export function springTurnsExample({length}: Units): string {
	const [now, closed] = exampleMm;
	return length === 'in' ? `${formatTrimmed(mmTo(now, 'in'), 2)} ${closed}x.039` : `${now} ${closed}x1.0`;
}

/**
 * A spring's coil body as it stands and closed up, mm: two lengths (`64 47`,
 * `64 mm, 47 mm`, `2 1/2 in 1 7/8 in`), the second also as turns side by side
 * times thickness of the wire (`64 47x1.0`).
 */
export function readSpringLengths(typed: string, units: Units): Entry<Lengths> {
	const {text, meant} = cleanEntry(expandFractions(typed));
	const {entered} = cleanEntry(typed);
	if (entered.length > longestEntry) return tooLong(entered, allowedIn(units), springLengthsExample(units));
	const pairs = splits(text).map(([one, other]) => [readBody(withUnitOf(one, other), units), readClosed(other, units)]);
	const taken = pairs.find(pair => pair.every(({kind}) => kind === 'value'));
	if (taken)
		return judged(taken.map(each => (each as {value: number}).value) as [number, number], entered, meant, units);
	const said = pairs.length === 1 ? pairs[0]!.find((each): each is Slip => each.kind === 'slip') : undefined;
	return slip(entered, said?.wrong ?? 'two lengths were expected', units);
}

function judged(lengths: Lengths, entered: string, meant: boolean, units: Units): Entry<Lengths> {
	const by = stretchMm(lengths);
	const [now, closed] = lengths.map(each => formatTypedLength(each, units));
	if (by <= 0) return slip(entered, `closed up, ${closed}, is no shorter than as it stands, ${now}`, units);
	const stretch = formatTypedLength(by, units);
	if (by < springStretch.low || by > springStretch.high) return slip(entered, `that is a stretch of ${stretch}`, units);
	const [low, high] = usualStretchMm;
	if (meant || (by >= low && by <= high)) return {kind: 'value', value: lengths, entered};
	const usual = `${formatTypedLength(low, units)} to ${formatTypedLength(high, units)}`;
	const said = doubt(entered, `springs that stand stretched by ${stretch} are unusual; mostly it is ${usual}`);
	return {kind: 'doubtful', said, value: lengths, entered};
}

function slip(entered: string, wrong: string, units: Units): Refused {
	const example = `${springLengthsExample(units)} or ${springTurnsExample(units)}`;
	return refuse({code: 'not-understood', read: entered, wrong, allowed: allowedIn(units), example});
}

function allowedIn(units: Units): string {
	const [least, most] = [springStretch.low, springStretch.high].map(each => formatTypedLength(each, units));
	return `the coil body as it stands, then closed up or as turns x wire, ${least} to ${most} shorter`;
}

/** Every way to part it in two, a semicolon or comma first: which of them makes two lengths shows in reading them. */
function splits(text: string): readonly (readonly [string, string])[] {
	const parted = /^([^;]+);([^;]+)$/.exec(text) ?? /^(.+?),\s+(.+)$/.exec(text);
	if (parted) return [[parted[1]!.trim(), parted[2]!.trim()]];
	return [...text.matchAll(/\s+/g)]
		.map(({index, 0: {length}}) => [text.slice(0, index), text.slice(index + length)] as const)
		.filter(([one, other]) => /\d/.test(one) && /^[\d.]/.test(other));
}

/** `64 47 mm`: a unit at the end is meant for both. */
function withUnitOf(one: string, other: string): string {
	const unit = /(?:mm|cm|in|inch|inches|"|'')$/i.exec(other)?.[0];
	return unit !== undefined && /[\d/.]$/.test(one) ? `${one} ${unit}` : one;
}

interface Slip {
	readonly kind: 'slip';
	readonly wrong: string;
}
type Part = {readonly kind: 'value'; readonly value: number} | Slip;

function readBody(typed: string, units: Units): Part {
	return readPart(typed, units, 'a coil body', rangeOf(springBody));
}

function readPart(typed: string, units: Units, what: string, range: Quantity['range']): Part {
	const entry = readLength(typed, units, {what, range, exampleMm: range[0]});
	if (entry.kind !== 'refused') return {kind: 'value', value: entry.value};
	const [low, high] = range.map(each => formatTypedLength(each, units));
	return {kind: 'slip', wrong: `“${typed}” is not ${what} from ${low} to ${high}`};
}

/** Closed up: a length, or turns times wire. */
function readClosed(typed: string, units: Units): Part {
	const product = /^([\d.,]+(?: 1\/2)?)\s*(?:x|×|\*|turns?(?: of| x)?|wires?(?: of| x)?)\s*([\d.].*)$/i.exec(typed);
	if (!product) return readBody(typed, units);
	const turns = readQuantity(product[1]!, {
		what: 'turns of a spring',
		units: {'': 1},
		range: turnsRange,
		show: value => formatTrimmed(value, 1),
		example: '47',
	});
	if (turns.kind === 'refused') {
		return {kind: 'slip', wrong: `“${product[1]}” is not turns of a spring from ${turnsRange.join(' to ')}`};
	}
	const wire = readPart(product[2]!, units, 'a spring wire', wireRangeMm);
	return wire.kind === 'slip' ? wire : {kind: 'value', value: turns.value * wire.value};
}
