import {formatCents, formatCentsWords} from '../../units/cents.ts';
import {formatGauge, formatTail, formatTravel, formatTypedLength} from '../../units/length.ts';
import {formatTrimmed} from '../../units/number.ts';
import {formatCount, formatForce, formatHertz, formatPercent} from '../../units/quantities.ts';
import {formatTurns} from '../../units/turns.ts';
import type {BenchDiagnosis} from '../diagnosis-of.ts';
import type {ArmProof} from './arm-proof.ts';
import type {SetUpSheet, StringReport} from './set-up-sheet.ts';
import type {Watch} from './watch-list.ts';
import {comparedPairs} from './compared.ts';
import {words} from './words.ts';

/** A piece of the sheet with its words; text and Markdown only lay it out. */
export interface Section {
	readonly title: string;
	/** Label and value. */
	readonly pairs?: readonly (readonly [label: string, value: string])[];
	readonly table?: {readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[]};
	readonly lines?: readonly string[];
}

export function sectionsOf(sheet: SetUpSheet): readonly Section[] {
	const {sections} = words;
	return [
		{title: sections.instrument, pairs: instrumentPairs(sheet), ...(sheet.isPractice && {lines: [words.practice]})},
		{title: sections.strings, table: stringTable(sheet), lines: [words.columnsNote]},
		{title: sections.plate, pairs: platePairs(sheet)},
		...(sheet.compared ? [{title: sections.compared, pairs: comparedPairs(sheet.compared, sheet.sheet.units)}] : []),
		{title: sections.work, lines: [workLine(sheet)]},
		...(sheet.proofs.length > 0 ? [{title: sections.proof, pairs: sheet.proofs.map(proofPair)}] : []),
		{title: sections.watch, lines: watchLines(sheet)},
		...(sheet.notes.length > 0 ? [{title: sections.notes, lines: sheet.notes}] : []),
		{title: sections.cautions, lines: words.cautions},
	];
}

function instrumentPairs({sheet, job, to, totalN, totalBeforeN, springs, firstActionMm}: SetUpSheet): Section['pairs'] {
	const {instrument} = words;
	const total = formatForce(totalN, sheet.units);
	const actionBefore =
		firstActionMm === undefined ? '' : `, ${words.before(formatTypedLength(firstActionMm, sheet.units))}`;
	const before = totalBeforeN === undefined ? '' : `, ${words.before(formatForce(totalBeforeN, sheet.units))}`;
	return [
		[instrument.date, new Date(to).toISOString().slice(0, 10)],
		[instrument.job, words.jobs[job]],
		[instrument.scale, formatTypedLength(sheet.scaleLengthMm, sheet.units)],
		[instrument.reference, formatHertz(sheet.referenceAHz, Number.isInteger(sheet.referenceAHz) ? 0 : 2)],
		[instrument.action, `${formatTypedLength(sheet.actionMm, sheet.units)}${actionBefore}`],
		[instrument.total, `${total}${before}`],
		[instrument.springs, formatTrimmed(springs, 0)],
	];
}

function stringTable({strings, sheet}: SetUpSheet): NonNullable<Section['table']> {
	const {columns} = words;
	const rows = strings.map(row => [
		`${row.string} ${row.note}`,
		// As sets are sold, whatever lengths are shown in.
		formatGauge(row.gaugeThou, row.wound, {length: 'in'}),
		cents(row.firstCents),
		nowCents(row),
		cents(row.firstIntonationCents),
		cents(row.nowIntonationCents),
		row.saddleMovedMm === 0 ? words.none : formatTravel(row.saddleMovedMm, sheet.units),
		formatForce(row.tensionN, sheet.units),
	]);
	return {heads: Object.values(columns), rows};
}

function cents(value: number | undefined): string {
	return value === undefined ? words.none : formatCents(value);
}

function nowCents({nowCents, isRead}: StringReport): string {
	return nowCents === undefined ? words.none : `${isRead ? '' : '~'}${formatCents(nowCents)}`;
}

function platePairs({plate, sheet}: SetUpSheet): Section['pairs'] {
	const now = formatTail(plate.nowTailMm, sheet.units);
	return [
		...(plate.firstTailMm === undefined
			? []
			: [[words.plate.first, formatTail(plate.firstTailMm, sheet.units)] as const]),
		[words.plate.now, plate.isMeasured ? now : words.plate.believed(now)],
		[words.plate.wish, formatTail(plate.wishMm, sheet.units)],
		[words.plate.claw, formatTurns(plate.clawTurns)],
	];
}

function workLine({work}: SetUpSheet): string {
	const kinds = Object.keys(words.work) as (keyof typeof words.work)[];
	const done = kinds.filter(kind => work[kind] > 0);
	return (
		done
			.map(kind => {
				const [one, many] = words.work[kind];
				return formatCount(work[kind], one, many);
			})
			.join(', ') || words.none
	);
}

function proofPair({motion, leftover}: ArmProof): readonly [string, string] {
	return [words.motions[motion], leftoverWords(leftover)];
}

/** What a movement left behind, in one line. */
export function leftoverWords({worstCents, ...diagnosis}: ArmProof['leftover']): string {
	return `${diagnosisWords(diagnosis)}; ${words.worst(formatCents(worstCents))}`;
}

/** What the readings say, in one sentence without its full stop; where they do not tell, what is likeliest. */
export function diagnosisWords({verdict, string, suspicions}: BenchDiagnosis): string {
	if (verdict !== 'unclear') return words.causes[verdict](String(string ?? ''));
	const [first, second] = suspicions;
	if (first && second && first.probability + second.probability > 0.8) {
		const pair = [first.cause, second.cause];
		if (pair.includes('plate') && pair.includes('claw')) return words.plateOrClaw;
		const isOneString =
			first.string === second.string && pair.includes('string-slips') && pair.includes('saddle-creeps');
		if (isOneString) return words.slipsOrCreeps(String(first.string));
	}

	const names = causeLines({suspicions});
	return names.length > 1 ? `${words.unclear}; ${words.likeliest(names.join(', '))}` : words.unclear;
}

/** The likeliest causes with their shares, two at most. */
export function causeLines({suspicions}: Pick<BenchDiagnosis, 'suspicions'>): readonly string[] {
	const likely = suspicions.filter(({probability}) => probability >= 0.15).slice(0, 2);
	return likely.map(({cause, probability}) => words.perhaps(words.causeNames[cause], formatPercent(probability)));
}

/** What to watch, one sentence each. */
export function watchLines({watch, sheet}: SetUpSheet): readonly string[] {
	if (watch.length === 0) return [words.watch.nothing];
	return watch.map(item => watchWords(item, sheet));
}

function watchWords(item: Watch, {units}: SetUpSheet['sheet']): string {
	switch (item.kind) {
		case 'new-strings':
			return words.watch.newStrings;
		case 'near-strength':
			return words.watch.strength(String(item.string), formatPercent(item.share));
		case 'intonation':
			return words.watch.intonation(String(item.string), formatCentsWords(item.cents));
		case 'pitch':
			return words.watch.pitch(String(item.string), formatCentsWords(item.cents));
		case 'plate':
			return words.watch.plate(formatTail(item.tailMm, units), formatTail(item.wishMm, units));
		case 'arm':
			return `${words.motions[item.proof.motion]}: ${leftoverWords(item.proof.leftover)}`;
	}
}
