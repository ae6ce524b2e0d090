import {diagnosisCauses} from '../../planning/diagnosis.ts';
import {hasShape, isFlag, isListOf, isNumber, isOneOf, isRecord, isText, isWhole, optional} from '../shape.ts';
import {jobs} from '../sheet.ts';
import type {SetUpSheet} from './set-up-sheet.ts';
import {watchLines} from './sections.ts';

/**
 * The set-up sheet as data, for other programs. Fixed units whatever units
 * the person likes: mm, newtons, hertz, cents (positive = sharp), turns
 * (positive = tightened), saddles behind the scale line (positive = back),
 * tail above level (positive = high), times in ISO 8601, UTC. `null` = not
 * known. `sheet-data.schema.json` beside this file says the same to a machine.
 *
 * A field may be added without a new version; readers ignore what they do not
 * know. A changed meaning or a field taken away needs the next number.
 */
export const sheetDataFormat = 'evenfloat-sheet';
export const sheetDataVersion = 1;

export interface SheetData {
	readonly format: typeof sheetDataFormat;
	readonly version: number;
	readonly guitar: {
		readonly name: string;
		/** Simulated: no real instrument. */
		readonly practice: boolean;
		readonly scaleLengthMm: number;
		readonly referenceAHz: number;
		readonly springs: number;
		readonly actionMm: BeforeNow;
		readonly openToleranceCents: number;
		readonly frettedToleranceCents: number;
	};
	readonly job: SetUpSheet['job'];
	readonly from: string;
	readonly to: string;
	readonly strings: readonly StringData[];
	/** Pull of all strings at pitch. */
	readonly totalN: BeforeNow;
	readonly plate: {
		readonly tailMm: BeforeNow;
		/** False when `now` is believed and was not measured since the last touch. */
		readonly measured: boolean;
		readonly wantedMm: number;
		readonly clawTurns: number;
	};
	readonly work: SetUpSheet['work'];
	readonly proofs: readonly ProofData[];
	/** Sentences. */
	readonly watch: readonly string[];
	readonly notes: readonly string[];
}

export interface BeforeNow {
	readonly before: number | null;
	readonly now: number | null;
}

export interface StringData {
	/** 1 = thinnest. */
	readonly string: number;
	/** Scientific pitch name of the target. */
	readonly note: string;
	readonly gaugeThou: number;
	readonly wound: boolean;
	readonly new: boolean;
	readonly openCents: BeforeNow;
	/** False when `now` is believed and was not read since the last touch. */
	readonly read: boolean;
	/** One standard deviation of `openCents.now` if the program heard it itself; null if it was typed or is believed. */
	readonly heardSdCents: number | null;
	/** Stiffness coefficient B of the open string as it was heard (mode n sounds at n f √(1 + B n²)). */
	readonly stiffness: number | null;
	/** Fretted 12th less harmonic. */
	readonly intonationCents: BeforeNow;
	readonly saddleMm: BeforeNow;
	readonly saddleMovedMm: number;
	readonly tensionN: BeforeNow;
}

export interface ProofData {
	readonly motion: 'dive' | 'pull-up' | 'bend';
	readonly worstCents: number;
	/** A cause, or `unclear`. */
	readonly verdict: string;
	readonly string: number | null;
	readonly suspicions: readonly {
		readonly cause: string;
		readonly string: number | null;
		/** 0 to 1. */
		readonly probability: number;
	}[];
}

/** A set-up sheet in the fixed units named above; what is not known is `null`. */
export function sheetData(report: SetUpSheet): SheetData {
	const {sheet, plate} = report;
	return {
		format: sheetDataFormat,
		version: sheetDataVersion,
		guitar: {
			name: report.name,
			practice: report.isPractice,
			scaleLengthMm: sheet.scaleLengthMm,
			referenceAHz: sheet.referenceAHz,
			springs: report.springs,
			actionMm: beforeNow(report.firstActionMm ?? sheet.actionMm, sheet.actionMm),
			openToleranceCents: sheet.openToleranceCents,
			frettedToleranceCents: sheet.frettedToleranceCents,
		},
		job: report.job,
		from: new Date(report.from).toISOString(),
		to: new Date(report.to).toISOString(),
		strings: report.strings.map(
			(row): StringData => ({
				string: row.string,
				note: row.note,
				gaugeThou: row.gaugeThou,
				wound: row.wound,
				new: row.isNew,
				openCents: beforeNow(row.firstCents, row.nowCents),
				read: row.isRead,
				heardSdCents: row.heardSdCents === undefined ? null : rounded(row.heardSdCents),
				stiffness: row.stiffness === undefined ? null : Number(row.stiffness.toPrecision(3)),
				intonationCents: beforeNow(row.firstIntonationCents, row.nowIntonationCents),
				saddleMm: beforeNow(row.saddleMm === undefined ? undefined : row.saddleMm - row.saddleMovedMm, row.saddleMm),
				saddleMovedMm: rounded(row.saddleMovedMm),
				tensionN: beforeNow(row.tensionBeforeN, row.tensionN),
			}),
		),
		totalN: beforeNow(report.totalBeforeN, report.totalN),
		plate: {
			tailMm: beforeNow(plate.firstTailMm, plate.nowTailMm),
			measured: plate.isMeasured,
			wantedMm: plate.wishMm,
			clawTurns: rounded(plate.clawTurns),
		},
		work: report.work,
		proofs: report.proofs.map(
			({motion, leftover}): ProofData => ({
				motion,
				worstCents: rounded(leftover.worstCents),
				verdict: leftover.verdict,
				string: leftover.string ?? null,
				suspicions: leftover.suspicions.map(({cause, string, probability}) => ({
					cause,
					string: string ?? null,
					probability: rounded(probability),
				})),
			}),
		),
		watch: watchLines(report),
		notes: report.notes,
	};
}

/** JSON, indented, ending with a line feed. */
export function sheetJson(report: SetUpSheet): string {
	return `${JSON.stringify(sheetData(report), undefined, '\t')}\n`;
}

function beforeNow(before: number | undefined, now: number | undefined): BeforeNow {
	return {before: before === undefined ? null : rounded(before), now: now === undefined ? null : rounded(now)};
}

/** Thousandths: finer than anything that was measured. */
function rounded(value: number): number {
	return Math.round(value * 1000) / 1000 + 0;
}

const isMaybe = (value: unknown): boolean => value === null || isNumber(value);
const isBeforeNow = hasShape({before: isMaybe, now: isMaybe});
const isStringOrNone = (value: unknown): boolean => value === null || isWhole(value);

const isSheetShape = hasShape({
	format: isOneOf([sheetDataFormat]),
	version: isWhole,
	guitar: hasShape({
		name: isText,
		practice: isFlag,
		scaleLengthMm: isNumber,
		referenceAHz: isNumber,
		springs: isNumber,
		actionMm: isBeforeNow,
		openToleranceCents: isNumber,
		frettedToleranceCents: isNumber,
	}),
	job: isOneOf(jobs),
	from: isText,
	to: isText,
	strings: isListOf(
		hasShape({
			string: isWhole,
			note: isText,
			gaugeThou: isNumber,
			wound: isFlag,
			new: isFlag,
			openCents: isBeforeNow,
			read: isFlag,
			// Added later: sheets of before lack them.
			heardSdCents: optional(isMaybe),
			stiffness: optional(isMaybe),
			intonationCents: isBeforeNow,
			saddleMm: isBeforeNow,
			saddleMovedMm: isNumber,
			tensionN: isBeforeNow,
		}),
	),
	totalN: isBeforeNow,
	plate: hasShape({tailMm: isBeforeNow, measured: isFlag, wantedMm: isNumber, clawTurns: isNumber}),
	work: isRecord,
	proofs: isListOf(
		hasShape({
			motion: isOneOf(['dive', 'pull-up', 'bend']),
			worstCents: isNumber,
			verdict: isOneOf([...diagnosisCauses, 'unclear']),
			string: isStringOrNone,
			suspicions: isListOf(hasShape({cause: isOneOf(diagnosisCauses), string: isStringOrNone, probability: isNumber})),
		}),
	),
	watch: isListOf(isText),
	notes: isListOf(isText),
});

/** True for a whole sheet of a version that this program knows. */
export function isSheetData(value: unknown): value is SheetData {
	return isSheetShape(value) && (value as SheetData).version === sheetDataVersion;
}
