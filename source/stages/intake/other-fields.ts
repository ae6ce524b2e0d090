import type {Entry} from '../../session/entry/entry.ts';
import {
	readAction,
	readNutHeight,
	readReferenceA,
	readScrewPitch,
	readTailArm,
	readTailHeight,
	readTolerance,
	readWhole,
} from '../../session/entry/measures.ts';
import {rangeOf} from '../../session/entry/quantity.ts';
import {sheetLimits} from '../../session/limits.ts';
import {type InstrumentSheet, jobs} from '../../session/sheet.ts';
import {forceUnits, lengthUnits} from '../../units/convert.ts';
import {formatTail, formatTypedLength} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {mapEntry} from '../common/map-entry.ts';
import type {Field} from './field.ts';
import {words} from './words.ts';

const {labels, hows} = words;

export const job: Field = {
	id: 'job',
	label: labels.job,
	shown: sheet => words.jobs[sheet.job],
	how: () => hows.job(jobs.map(job => words.jobs[job])),
	example: () => '3',
	read(text, sheet) {
		const typed = text.trim().toLowerCase();
		const found = jobs.find((job, index) => typed === String(index + 1) || typed === job || typed === words.jobs[job]);
		if (!found) return refused(words.notAJob(text.trim()));
		const {before, ...rest} = sheet;
		// What was on before says nothing once the job is no change.
		const kept = found === 'change' ? {before: before ?? sheet.strings} : {};
		return value({...rest, ...kept, job: found}, text);
	},
};

export const reference: Field = {
	id: 'reference',
	label: labels.reference,
	shown: ({referenceAHz}) => `${formatTrimmed(referenceAHz, 2)} Hz`,
	how: () => hows.reference,
	example: () => '442',
	read: (text, sheet) => mapEntry(readReferenceA(text), referenceAHz => ({...sheet, referenceAHz})),
};

export const units: Field = {
	id: 'units',
	label: labels.units,
	shown: sheet => `${sheet.units.length} ${sheet.units.force}`,
	how: () => hows.units,
	example: () => 'in lbf',
	read(text, sheet) {
		const typed = text
			.trim()
			.toLowerCase()
			.split(/[\s,/]+/);
		const length = lengthUnits.find(unit => typed.includes(unit) || (unit === 'in' && typed.includes('inch')));
		const force = forceUnits.find(unit => typed.includes(unit.toLowerCase()));
		const named = (length ? 1 : 0) + (force ? 1 : 0);
		if (named === 0 || named !== typed.length) return refused(words.notUnits(text.trim()));
		return value({...sheet, units: {length: length ?? sheet.units.length, force: force ?? sheet.units.force}}, text);
	},
};

export const springs: Field = {
	id: 'springs',
	label: labels.springs,
	shown: sheet => String(sheet.springs),
	how: () => hows.springs(`${sheetLimits.springs.low} to ${sheetLimits.springs.high}`),
	example: () => '4',
	read: (text, sheet) =>
		mapEntry(readWhole(text, 'a number of springs', rangeOf(sheetLimits.springs), 3), springs => ({...sheet, springs})),
};

export const plate: Field = {
	id: 'plate',
	label: labels.plate,
	shown: ({plateWishMm, units}) => formatTail(plateWishMm, units),
	how: () => hows.plate,
	example: () => '0.5 high',
	read: (text, sheet) => mapEntry(readTailHeight(text, sheet.units), plateWishMm => ({...sheet, plateWishMm})),
};

export const action: Field = {
	id: 'action',
	label: labels.action,
	shown: ({actionMm, units}) => formatTypedLength(actionMm, units),
	how: () => hows.action,
	example: ({units}) => (units.length === 'in' ? '4/64' : '1.8'),
	read: (text, sheet) => mapEntry(readAction(text, sheet.units), actionMm => ({...sheet, actionMm})),
};

export const tolerances: Field = {
	id: 'tolerances',
	label: labels.tolerances,
	shown: sheet =>
		`${formatTrimmed(sheet.openToleranceCents, 1)} open, ${formatTrimmed(sheet.frettedToleranceCents, 1)} fretted`,
	how: () => hows.tolerances,
	example: () => '1 2',
	read(text, sheet) {
		const [, open = text, fretted] = /^\s*(\S+)[\s,;/]+(\S+)\s*$/.exec(text) ?? [];
		const first = readTolerance(open);
		if (first.kind === 'refused' || fretted === undefined) {
			return mapEntry(first, openToleranceCents => ({...sheet, openToleranceCents}));
		}
		const both = mapEntry(readTolerance(fretted), frettedToleranceCents => ({
			...sheet,
			openToleranceCents: first.value,
			frettedToleranceCents,
		}));
		return both.kind === 'value' && first.kind === 'doubtful' ? {...first, value: both.value} : both;
	},
};

export const screw: Field = {
	id: 'screw',
	label: labels.screw,
	shown: ({clawScrewPitchMm, units}) => formatTypedLength(clawScrewPitchMm, units),
	how: () => hows.screw,
	example: () => '1.7 mm',
	read: (text, sheet) =>
		mapEntry(readScrewPitch(text, sheet.units), clawScrewPitchMm => ({...sheet, clawScrewPitchMm})),
};

export const arm: Field = {
	id: 'arm',
	label: labels.arm,
	shown: ({tailArmMm, units}) => formatTypedLength(tailArmMm, units),
	how: () => hows.arm,
	example: () => '30 mm',
	read: (text, sheet) => mapEntry(readTailArm(text, sheet.units), tailArmMm => ({...sheet, tailArmMm})),
};

export const nut: Field = {
	id: 'nut',
	label: labels.nut,
	shown: ({nutHeightMm, units}) => formatTypedLength(nutHeightMm, units),
	how: () => hows.nut,
	example: () => '0.35 mm',
	read: (text, sheet) => mapEntry(readNutHeight(text, sheet.units), nutHeightMm => ({...sheet, nutHeightMm})),
};

export const name: Field = {
	id: 'name',
	label: labels.name,
	shown: sheet => sheet.name,
	how: () => hows.name,
	example: () => 'Red one',
	read(text, sheet) {
		const typed = text.trim();
		if (typed === '') return refused(words.noName);
		return typed.length > 60 ? refused(words.tooLongName(typed.slice(0, 20))) : value({...sheet, name: typed}, text);
	},
};

export const practice: Field = {
	id: 'practice',
	label: labels.practice,
	shown: ({practiceSeed}) => (practiceSeed === undefined ? words.real : words.practiceGuitar(String(practiceSeed))),
	how: () => hows.practice,
	example: () => '7',
	read(text, sheet) {
		const typed = text.trim().toLowerCase();
		const {practiceSeed: _, ...real} = sheet;
		if (typed === words.real) return value(real, text);
		if (!/^\d{1,6}$/.test(typed)) return refused(words.notPractice(text.trim()));
		return value({...real, practiceSeed: Number(typed)}, text);
	},
};

function value(sheet: InstrumentSheet, text: string): Entry<InstrumentSheet> {
	return {kind: 'value', value: sheet, entered: text.trim()};
}

function refused(said: string): Entry<InstrumentSheet> {
	return {kind: 'refused', code: 'not-understood', said};
}
