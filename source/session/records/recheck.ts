import type {Learned} from '../../estimation/memory.ts';
import {type StringNumber, stringNumbers} from '../../music/string-number.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import {type DiagnosisEvent, diagnose} from '../../planning/diagnosis.ts';
import {diagnosisGround} from '../../planning/diagnosis-ground.ts';
import {beliefOf} from '../belief-of.ts';
import type {BenchDiagnosis} from '../diagnosis-of.ts';
import {stateOf} from '../evolve.ts';
import type {Story} from '../facts.ts';
import type {InstrumentSheet} from '../sheet.ts';

/** Strings read a day or so after a set-up, with nobody having touched anything. */
export interface Recheck {
	readonly strings: readonly RecheckRow[];
	/** `as-left` nothing but noise and a night; `settling` new strings give; `fault` see the diagnosis; `unclear` read again. */
	readonly verdict: 'as-left' | 'settling' | 'fault' | 'unclear';
	readonly diagnosis: BenchDiagnosis;
}

export interface RecheckRow {
	readonly string: StringNumber;
	/** What yesterday's set-up expects now, cents; undefined when it was never known. */
	readonly expected?: Estimate;
	readonly readCents?: number;
}

/** Strings put on in that set-up count at least as this new: a day is short. Judgement. */
const leastNewness = 0.3;

/**
 * What yesterday's set-up expects of today's readings, before anything is read; thinnest first.
 *
 * @param sheet What cents are counted from, where the targets were changed since: yesterday's guitar, today's targets.
 */
export function expectedOf(yesterday: Story, learned?: Learned, sheet?: InstrumentSheet): readonly RecheckRow[] {
	return rowsOf(groundOf(yesterday, learned, sheet), []);
}

/**
 * Compares today's readings with what yesterday's set-up expects, and says
 * whether what changed is settling or a fault.
 *
 * @param reads Open strings, cents of target, in the order read; a string may be read more than once.
 * @param sheet As for `expectedOf`.
 * @returns Undefined when nothing was read.
 * @throws {RangeError} If yesterday's story has no filled sheet.
 */
export function recheckOf(
	yesterday: Story,
	reads: readonly {readonly string: StringNumber; readonly cents: number}[],
	learned?: Learned,
	sheet?: InstrumentSheet,
): Recheck | undefined {
	const ground = groundOf(yesterday, learned, sheet);
	const events: readonly DiagnosisEvent[] = [
		{kind: 'night'},
		...reads.map(({string, cents}) => ({kind: 'read', index: string - 1, cents}) as const),
	];
	const found = diagnose({...ground, events});
	if (!found) return undefined;
	const diagnosis: BenchDiagnosis = {
		verdict: found.verdict,
		...(found.index === undefined ? {} : {string: stringNumbers[found.index]!}),
		suspicions: found.suspicions.map(({index, ...suspicion}) => ({
			...suspicion,
			...(index === undefined ? {} : {string: stringNumbers[index]!}),
		})),
	};
	const strings = rowsOf(ground, reads);
	const verdict = verdictOf(diagnosis);
	return {
		strings,
		verdict: verdict === 'as-left' && isFlatter(strings, ground.strings) ? 'settling' : verdict,
		diagnosis,
	};
}

/** A night's usual give counts as settling once the new strings are flatter on the whole than noise makes them, cents. */
const noticedCents = 1;

function isFlatter(rows: readonly RecheckRow[], strings: readonly {readonly newness: number}[]): boolean {
	const changes = rows.flatMap(({expected, readCents}, index) =>
		strings[index]!.newness > 0 && expected && readCents !== undefined ? [readCents - expected.mean] : [],
	);
	return changes.length > 0 && changes.reduce((sum, cents) => sum + cents, 0) / changes.length < -noticedCents;
}

function verdictOf({verdict}: BenchDiagnosis): Recheck['verdict'] {
	if (verdict === 'sound') return 'as-left';
	if (verdict === 'stretching') return 'settling';
	return verdict === 'unclear' ? 'unclear' : 'fault';
}

function groundOf(
	yesterday: Story,
	learned: Learned | undefined,
	sheet: InstrumentSheet | undefined = stateOf(yesterday).sheet,
) {
	if (!sheet) throw new RangeError('recheckOf: expected yesterday to hold a filled sheet, got none');
	const ground = diagnosisGround(beliefOf(yesterday, sheet, learned));
	const isNew = (index: number) =>
		yesterday.some(fact => fact.type === 'StringFitted' && fact.string === stringNumbers[index]);
	const strings = ground.strings.map((string, index) => ({
		...string,
		newness: isNew(index) ? Math.max(leastNewness, string.newness) : 0,
	}));
	return {...ground, strings};
}

function rowsOf(
	{before, strings}: ReturnType<typeof groundOf>,
	reads: readonly {readonly string: StringNumber; readonly cents: number}[],
): readonly RecheckRow[] {
	return strings.map((_, index): RecheckRow => {
		const string = stringNumbers[index]!;
		const mean = before?.cents[index];
		const own = reads.filter(read => read.string === string).map(({cents}) => cents);
		return {
			string,
			...(mean !== undefined && {expected: {mean, sd: Math.sqrt(before!.covariance[index]![index]!)}}),
			...(own.length > 0 && {readCents: own.reduce((sum, cents) => sum + cents, 0) / own.length}),
		};
	});
}
