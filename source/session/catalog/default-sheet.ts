import {type Tuning, tuningsFor} from '../../music/tunings.ts';
import type {InstrumentSheet, StringSheet} from '../sheet.ts';
import {type SetString, type StringSet, setsFor} from './sets.ts';

/** Counts of strings that the wizard knows. */
export const stringCounts = [6, 7, 8] as const;
export type StringCount = (typeof stringCounts)[number];

/**
 * Every default of an instrument that a person has said nothing about.
 * Common practice, no source, unless a line says otherwise; all can be changed.
 */
const commonDefaults = {
	name: 'Guitar',
	// ISO 16:1975.
	referenceAHz: 440,
	// A coarse wood screw of the usual size advances about this much; let the person measure it.
	clawScrewPitchMm: 1.7,
	// Level, unless the owner wants otherwise.
	plateWishMm: 0,
	// Knife edge to the edge over the fine tuners; differs by several millimetres between bridges.
	tailArmMm: 30,
	// A careful bench; ±5 cents is hard for most to hear.
	openToleranceCents: 1,
	frettedToleranceCents: 2,
	// Usual low action of an electric guitar, about 4/64 in.
	actionMm: 1.6,
	// A string that clears the first fret with little to spare.
	nutHeightMm: 0.35,
	units: {length: 'mm', force: 'N'},
	job: 'whole',
} as const satisfies Partial<InstrumentSheet>;

/** What follows from the number of strings. Common practice, no source. */
const byCount: Readonly<Record<StringCount, Pick<InstrumentSheet, 'scaleLengthMm' | 'springs'> & {set: string}>> = {
	6: {scaleLengthMm: 648, springs: 3, set: 'tens'},
	// A seventh string adds about a sixth of the pull: one spring more.
	7: {scaleLengthMm: 648, springs: 4, set: 'seven-string tens'},
	// Long scales keep the eighth string from being slack: 27 in.
	8: {scaleLengthMm: 686, springs: 4, set: 'eight-string tens'},
};

/**
 * Travel of a saddle, mm behind the scale line: two threaded holes together
 * give about 10 mm, most of it backwards, where saddles are needed. Common
 * practice, no source; differs between bridges, and each string may say its own.
 */
export const defaultSaddleRangeMm = [-2, 8] as const;

/** What a person has said so far; everything else is filled. */
export interface Chosen {
	readonly strings?: StringCount;
	/** Its number of strings must be that of the instrument. */
	readonly set?: Pick<StringSet, 'strings'>;
	/** Notes, thinnest first, as many as strings. */
	readonly tuning?: Pick<Tuning, 'notes'>;
}

/**
 * A sheet that is whole: what was chosen, defaults for the rest. Without a
 * count, the set or the tuning tells it, else six.
 *
 * @throws {RangeError} If set, tuning and count disagree, or the count is not 6, 7 or 8.
 */
export function defaultSheet(chosen: Chosen = {}): InstrumentSheet {
	const count = chosen.strings ?? chosen.set?.strings.length ?? chosen.tuning?.notes.length ?? 6;
	if (!isStringCount(count)) {
		throw new RangeError(`defaultSheet: expected 6, 7 or 8 strings, got ${count}`);
	}

	const {set: setName, ...rest} = byCount[count];
	const set = chosen.set ?? setsFor(count).find(({name}) => name === setName);
	const tuning = chosen.tuning ?? tuningsFor(count)[0];
	return {...commonDefaults, ...rest, strings: stringsFrom(set?.strings ?? [], tuning?.notes ?? [], count)};
}

/** The same sheet with other gauges; what else is known of each string stays, but for the core, which belongs to the old string. */
export function withSet(sheet: InstrumentSheet, set: readonly SetString[]): InstrumentSheet {
	requireCount('withSet', 'gauges', set.length, sheet.strings.length);
	const strings = sheet.strings.map(({coreThou: _, ...string}, index) => ({...string, ...set[index]}));
	return {...sheet, strings};
}

/** The same sheet with other target notes, thinnest first. */
export function withTuning(sheet: InstrumentSheet, notes: readonly string[]): InstrumentSheet {
	requireCount('withTuning', 'notes', notes.length, sheet.strings.length);
	const strings = sheet.strings.map((string, index) => ({...string, note: notes[index] ?? string.note}));
	return {...sheet, strings};
}

export function isStringCount(count: number): count is StringCount {
	return (stringCounts as readonly number[]).includes(count);
}

function stringsFrom(set: readonly SetString[], notes: readonly string[], count: StringCount): readonly StringSheet[] {
	requireCount('defaultSheet', 'gauges', set.length, count);
	requireCount('defaultSheet', 'notes', notes.length, count);
	return set.map(({gaugeThou, wound}, index) => ({
		note: notes[index] ?? '',
		gaugeThou,
		wound,
		saddleRangeMm: defaultSaddleRangeMm,
	}));
}

function requireCount(caller: string, what: string, got: number, count: number): void {
	if (got !== count) {
		throw new RangeError(`${caller}: expected ${count} ${what}, got ${got}`);
	}
}
