import type {StringNumber} from '../../music/string-number.ts';
import type {Story} from '../facts.ts';
import type {SetUpSheet, StringReport} from '../report/set-up-sheet.ts';

/** Later less earlier, of one guitar. Signs as everywhere: cents sharp, saddle back, tail high, turns tighter are positive. */
export interface Comparison {
	/** Whole days from the end of the earlier to the beginning of the later. */
	readonly days: number;
	readonly strings: readonly StringComparison[];
	readonly springs: number;
	readonly actionMm: number;
	readonly totalN: number;
	/** What the tail did between the visits, and from one result to the other; undefined where not measured or believed. */
	readonly tailDriftMm?: number;
	readonly tailMm: number;
}

export interface StringComparison {
	readonly string: StringNumber;
	/** Another gauge, winding or target than before: then nothing else is compared. */
	readonly isOther: boolean;
	/** How it came in less how it was left, cents: what happened between the visits. */
	readonly driftCents?: number;
	/** Result less result. */
	readonly intonationCents?: number;
	readonly saddleMm?: number;
	readonly tensionN: number;
}

/** What is different between two set-ups of one guitar; strings that only one of them has are left out. */
export function compared(earlier: SetUpSheet, later: SetUpSheet): Comparison {
	const hasDrift = later.plate.firstTailMm !== undefined;
	return {
		days: Math.max(0, Math.floor((later.from - earlier.to) / dayMs)),
		strings: later.strings.flatMap(now => {
			const before = earlier.strings.find(({string}) => string === now.string);
			return before ? [comparedString(before, now)] : [];
		}),
		springs: later.springs - earlier.springs,
		actionMm: later.sheet.actionMm - earlier.sheet.actionMm,
		totalN: later.totalN - earlier.totalN,
		...(hasDrift && {tailDriftMm: later.plate.firstTailMm! - earlier.plate.nowTailMm}),
		tailMm: later.plate.nowTailMm - earlier.plate.nowTailMm,
	};
}

const dayMs = 24 * 3600 * 1000;

function comparedString(before: StringReport, now: StringReport): StringComparison {
	const isOther = before.gaugeThou !== now.gaugeThou || before.wound !== now.wound || before.note !== now.note;
	const tensionN = now.tensionN - before.tensionN;
	if (isOther) return {string: now.string, isOther, tensionN};
	const between = (a: number | undefined, b: number | undefined) =>
		a === undefined || b === undefined ? undefined : b - a;
	const drift = between(before.nowCents, now.firstCents);
	const intonation = between(before.nowIntonationCents, now.nowIntonationCents);
	const saddle = between(before.saddleMm, now.saddleMm);
	return {
		string: now.string,
		isOther,
		...(drift !== undefined && {driftCents: drift}),
		...(intonation !== undefined && {intonationCents: intonation}),
		...(saddle !== undefined && {saddleMm: saddle}),
		tensionN,
	};
}

/**
 * When each string that is on now was put on, milliseconds since 1970, by
 * everything ever recorded of the guitar; undefined where no set-up saw it.
 *
 * @param stories All set-ups of the guitar, any order.
 */
export function fittedAt(stories: readonly Story[]): (string: StringNumber) => number | undefined {
	const facts = stories.flat().toSorted((a, b) => a.at - b.at);
	return string => facts.findLast(fact => fact.type === 'StringFitted' && fact.string === string)?.at;
}

/** Whole days; negative ages, from a clock that was set back, are 0. */
export function ageDays(fittedAtMs: number, now: number): number {
	return Math.max(0, Math.floor((now - fittedAtMs) / dayMs));
}
