import {tuningOf, tuningsFor} from '../../music/tunings.ts';
import {defaultSheet, isStringCount, withSet, withTuning} from '../../session/catalog/default-sheet.ts';
import {endsOf, type SetString, setOf, setsFor} from '../../session/catalog/sets.ts';
import type {Entry} from '../../session/entry/entry.ts';
import {readGauges} from '../../session/entry/gauges.ts';
import {readScaleLength, readWhole} from '../../session/entry/measures.ts';
import {readNotes} from '../../session/entry/notes.ts';
import type {InstrumentSheet, StringSheet} from '../../session/sheet.ts';
import {formatTypedLength} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {mapEntry} from '../common/map-entry.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

const {labels, hows} = words;

export const count: Field = {
	id: 'count',
	label: labels.count,
	shown: ({strings}) => String(strings.length),
	how: () => [],
	example: () => '7',
	read: (text, sheet) => mapEntry(readWhole(text, 'a number of strings', [6, 8], 7), count => withCount(sheet, count)),
};

export const set: Field = {
	id: 'set',
	label: labels.set,
	shown: ({strings}) => gaugesShown(strings),
	how: ({strings}) => [...words.set.how, ...setsShown(strings.length)],
	example: () => '10-46',
	read: (text, sheet) => mapEntry(gaugesFrom(text, sheet), gauges => withSet(sheet, gauges)),
};

export const tuning: Field = {
	id: 'tuning',
	label: labels.tuning,
	shown: ({strings}) => tuningShown(strings),
	how: ({strings}) => [...words.tuning.how, ...tuningsShown(strings.length)],
	example: () => 'drop D',
	read: (text, sheet) => mapEntry(notesFrom(text, sheet), notes => withTuning(sheet, notes)),
};

export const scale: Field = {
	id: 'scale',
	label: labels.scale,
	shown: ({scaleLengthMm, units}) => formatTypedLength(scaleLengthMm, units),
	how: () => words.scale.how,
	example: ({units}) => (units.length === 'in' ? '25 1/2' : '629'),
	read: (text, sheet) => mapEntry(readScaleLength(text, sheet.units), scaleLengthMm => ({...sheet, scaleLengthMm})),
};

const isChange = ({job}: InstrumentSheet) => job === 'change';

export const oldSet: Field = {
	id: 'old-set',
	label: labels.oldSet,
	shown: sheet => (sheet.before ? gaugesShown(sheet.before) : words.same),
	how: ({strings}) => [...hows.old, ...words.set.how, ...setsShown(strings.length)],
	example: () => '9-42',
	read: (text, sheet) =>
		mapEntry(gaugesFrom(text, sheet), gauges => withBefore(sheet, before => withSet(before, gauges))),
	isAsked: isChange,
};

export const oldTuning: Field = {
	id: 'old-tuning',
	label: labels.oldTuning,
	shown: sheet => (sheet.before ? tuningShown(sheet.before) : words.same),
	how: ({strings}) => [...hows.old, ...words.tuning.how, ...tuningsShown(strings.length)],
	example: () => 'standard',
	read: (text, sheet) =>
		mapEntry(notesFrom(text, sheet), notes => withBefore(sheet, before => withTuning(before, notes))),
	isAsked: isChange,
};

/** Another number of strings: gauges, tuning, scale and springs become what is usual for it. */
function withCount(sheet: InstrumentSheet, count: number): InstrumentSheet {
	if (count === sheet.strings.length || !isStringCount(count)) return sheet;
	const {before: _, ...rest} = sheet;
	const {strings, scaleLengthMm, springs} = defaultSheet({strings: count});
	return {...rest, strings, scaleLengthMm, springs};
}

/** What was on before, as a sheet of its own for a moment, so that it is changed by the same functions. */
function withBefore(sheet: InstrumentSheet, change: (before: InstrumentSheet) => InstrumentSheet): InstrumentSheet {
	return {...sheet, before: change({...sheet, strings: sheet.before ?? sheet.strings}).strings};
}

/** `10` alone means tens, as at a counter. */
function gaugesFrom(text: string, {strings}: InstrumentSheet): Entry<readonly SetString[]> {
	const alone = /^\s*\.?0*(\d{1,2}(?:\.5)?)\s*$/.exec(text)?.[1];
	return readGauges(alone === undefined ? text : `${alone}s`, strings.length);
}

/** `2` is the second of the list. */
function notesFrom(text: string, {strings}: InstrumentSheet): Entry<readonly string[]> {
	const known = /^\s*\d+\s*$/.test(text) ? tuningsFor(strings.length)[Number(text) - 1] : undefined;
	return known ? {kind: 'value', value: known.notes, entered: known.name} : readNotes(text, strings.length);
}

function gaugesShown(strings: readonly StringSheet[]): string {
	const gauges = strings.map(({gaugeThou, wound}) => ({gaugeThou, wound}));
	const ends = endsOf(gauges);
	const known = setOf(gauges);
	return known ? `${known.name} (${ends})` : `${words.own} ${packet(gauges)}`;
}

function packet(gauges: readonly SetString[]): string {
	return gauges.map(({gaugeThou, wound}) => `${formatTrimmed(gaugeThou, 1)}${wound ? 'w' : ''}`).join(' ');
}

function tuningShown(strings: readonly StringSheet[]): string {
	const notes = strings.map(({note}) => note);
	return tuningOf(notes)?.name ?? notes.toReversed().join(' ');
}

function setsShown(count: number): readonly string[] {
	return inColumns(
		setsFor(count).map(({name, strings}) => `${endsOf(strings)} ${name}`),
		{perRow: 2, width: 28},
	);
}

function tuningsShown(count: number): readonly string[] {
	return inColumns(
		tuningsFor(count).map(({name}, index) => `${index + 1} ${name}`),
		{perRow: 3, width: 19},
	);
}

/** Rows of a list that reads across; narrow enough for the smallest screen. */
function inColumns(
	cells: readonly string[],
	{perRow, width}: {readonly perRow: number; readonly width: number},
): readonly string[] {
	const rows = Array.from({length: Math.ceil(cells.length / perRow)}, (_, row) =>
		cells.slice(row * perRow, (row + 1) * perRow),
	);
	return rows.map(row =>
		row
			.map(cell => cell.padEnd(width))
			.join(' ')
			.trimEnd(),
	);
}
