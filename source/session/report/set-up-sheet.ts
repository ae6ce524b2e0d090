import type {StringNumber} from '../../music/string-number.ts';
import type {Bench, StringRow} from '../bench.ts';
import {isWork} from '../deed-nature.ts';
import type {Fact, Story} from '../facts.ts';
import {heardStiffnessOf} from '../heard-told.ts';
import type {ForecastCompared} from '../set-change-compared.ts';
import type {InstrumentSheet, Job} from '../sheet.ts';
import {type ArmProof, armProofs} from './arm-proof.ts';
import {intonationRead} from './intonation-read.ts';
import {type Watch, watchList} from './watch-list.ts';

/** What is handed over at the end: what came in, what was done, what it reads now, what to watch. Data; the words are elsewhere. */
export interface SetUpSheet {
	readonly name: string;
	readonly isPractice: boolean;
	readonly job: Job;
	/** Milliseconds since 1970 of the first and the last fact. */
	readonly from: number;
	readonly to: number;
	readonly sheet: InstrumentSheet;
	readonly strings: readonly StringReport[];
	readonly totalN: number;
	/** Undefined unless strings or tuning were changed. */
	readonly totalBeforeN?: number;
	readonly plate: PlateReport;
	readonly springs: number;
	/** What the change was foreseen to do beside what came true; undefined unless strings or tuning were changed. */
	readonly compared?: ForecastCompared;
	/** As first said at intake, when it was corrected later. */
	readonly firstActionMm?: number;
	readonly work: WorkCount;
	readonly proofs: readonly ArmProof[];
	readonly watch: readonly Watch[];
	readonly notes: readonly string[];
}

/** Cents positive = sharp, saddle positive = back. Missing = never read or never done. */
export interface StringReport {
	readonly string: StringNumber;
	readonly note: string;
	readonly gaugeThou: number;
	readonly wound: boolean;
	readonly isNew: boolean;
	/** First open reading, before its own peg or fine tuner was touched. */
	readonly firstCents?: number;
	/** Last open reading, or what is believed if something was touched since. */
	readonly nowCents?: number;
	/** True if `nowCents` was read with nothing touched since. */
	readonly isRead: boolean;
	/** Uncertainty of that reading, one standard deviation, cents; only if the program heard it itself. */
	readonly heardSdCents?: number;
	/** Stiffness coefficient of the open string as it was heard. */
	readonly stiffness?: number;
	/** Fretted 12th minus harmonic, before the saddle was first moved and at the end. */
	readonly firstIntonationCents?: number;
	readonly nowIntonationCents?: number;
	readonly saddleMovedMm: number;
	/** Where the saddle stands, mm behind the scale line. */
	readonly saddleMm?: number;
	readonly tensionN: number;
	readonly tensionBeforeN?: number;
}

/** Tail heights, mm above level; turns positive = tightened. */
export interface PlateReport {
	readonly firstTailMm?: number;
	readonly nowTailMm: number;
	readonly isMeasured: boolean;
	readonly wishMm: number;
	readonly clawTurns: number;
}

/** How often each thing was done. */
export interface WorkCount {
	readonly pegTurns: number;
	readonly fineTunerTurns: number;
	readonly saddleMoves: number;
	readonly clawSteps: number;
	readonly stringsFitted: number;
	readonly plucks: number;
}

export function setUpSheet(bench: Bench): SetUpSheet {
	const {story, sheet, strings, springs} = bench;
	const rows = strings.map(row => stringReport(row, bench));
	const before = rows.every(({tensionBeforeN}) => tensionBeforeN !== undefined);
	const proofs = armProofs(bench);
	const compared = bench.changeCompared();
	const firstActionMm = story.flatMap(fact => (fact.type === 'SheetFilled' ? [fact.sheet.actionMm] : []))[0];
	return {
		name: sheet.name,
		isPractice: sheet.practiceSeed !== undefined,
		job: sheet.job,
		from: story[0]?.at ?? 0,
		to: story.at(-1)?.at ?? 0,
		sheet,
		strings: rows,
		totalN: sum(rows.map(({tensionN}) => tensionN)),
		...(before && {totalBeforeN: sum(rows.map(({tensionBeforeN}) => tensionBeforeN ?? 0))}),
		plate: plateReport(bench),
		springs,
		...(compared && {compared}),
		...(firstActionMm !== undefined && firstActionMm !== sheet.actionMm && {firstActionMm}),
		work: workCount(story),
		proofs,
		watch: watchList(bench, rows, proofs),
		notes: story.flatMap(fact => (fact.type === 'NoteWritten' ? [fact.text] : [])),
	};
}

function stringReport(row: StringRow, {story, lastAdjustment}: Bench): StringReport {
	const {string, note, gaugeThou, wound, tensionBeforeN, now} = row;
	const first = firstReading(story, string);
	const standing = openReadings(story.slice(lastAdjustment + 1), string).at(-1);
	const nowCents = standing?.cents ?? now?.mean;
	const stiffness = heardStiffnessOf(story, string)?.mean;
	const moved = story.findIndex(fact => fact.type === 'SaddleMoved' && fact.string === string);
	const firstIntonation = intonationRead(moved < 0 ? story : story.slice(0, moved), string);
	const nowIntonation = intonationRead(story, string);
	return {
		string,
		note,
		gaugeThou,
		wound,
		isNew: story.some(fact => fact.type === 'StringFitted' && fact.string === string),
		...(first !== undefined && {firstCents: first}),
		...(nowCents !== undefined && {nowCents}),
		isRead: standing !== undefined,
		...(standing?.heard && {heardSdCents: standing.heard.sdCents}),
		...(stiffness !== undefined && {stiffness}),
		...(firstIntonation !== undefined && {firstIntonationCents: firstIntonation}),
		...(nowIntonation !== undefined && {nowIntonationCents: nowIntonation}),
		saddleMovedMm: sum(
			story.flatMap(fact => (fact.type === 'SaddleMoved' && fact.string === string ? [fact.travelMm] : [])),
		),
		...(row.saddleMm !== undefined && {saddleMm: row.saddleMm}),
		tensionN: row.targetTensionN,
		...(tensionBeforeN !== undefined && {tensionBeforeN}),
	};
}

/** As it came in: read before anybody turned or took off this string. */
function firstReading(story: Story, string: StringNumber): number | undefined {
	// Its own work only: what others' work did to it is how the bridge answers, and still how it came in.
	const touched = story.findIndex(fact => isWork(fact) && 'string' in fact && fact.string === string);
	const untouched = touched < 0 ? story : story.slice(0, touched);
	return openReadings(untouched, string)[0]?.cents;
}

function openReadings(story: Story, string: StringNumber) {
	return story.flatMap(fact =>
		fact.type === 'PitchRead' && fact.string === string && fact.how === 'open' ? [fact] : [],
	);
}

function plateReport({story, plate, sheet}: Bench): PlateReport {
	const changed = story.findIndex(({type}) => type === 'ClawTurned' || type === 'SpringsChanged');
	const first = story.find((fact, index) => fact.type === 'PlateMeasured' && (changed < 0 || index < changed));
	const isMeasured = plate.measured !== undefined && plate.measured.touchedSince === 0;
	return {
		...(first?.type === 'PlateMeasured' && {firstTailMm: first.tailMm}),
		nowTailMm: isMeasured ? plate.measured.tailMm : plate.tailMm.mean,
		isMeasured,
		wishMm: sheet.plateWishMm,
		clawTurns: plate.clawTurnsMade,
	};
}

function workCount(story: Story): WorkCount {
	const count = (type: Fact['type']) => story.filter(fact => fact.type === type).length;
	return {
		pegTurns: count('PegTurned'),
		fineTunerTurns: count('FineTunerTurned'),
		saddleMoves: count('SaddleMoved'),
		clawSteps: count('ClawTurned'),
		stringsFitted: count('StringFitted'),
		plucks: count('PitchRead'),
	};
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((total, number) => total + number, 0);
}
