import {parseNote} from '../music/note.ts';
import {type StringNumber, stringsOf} from '../music/string-number.ts';
import {
	clawTurnsLeft,
	outside,
	plainGauge,
	sheetLimits,
	springArm,
	springBody,
	springStretch,
	stringLimits,
	woundGauge,
} from './limits.ts';
import {type InstrumentSheet, type StringSheet, stretchMm} from './sheet.ts';

/** One thing in a sheet that cannot be, and what could. */
export interface SheetProblem {
	/** The sheet's own field: `scaleLengthMm`, `strings.2.gaugeThou`, `before.0.note` (counted from 0, as the lists are). */
	readonly field: string;
	readonly string?: StringNumber;
	/** What was read, what is allowed, an example. */
	readonly said: string;
}

const counts = [6, 7, 8];
/** Core at least this share of a wound gauge: below, the wrap would be thicker than any made. */
const leastCoreShare = 0.2;

/**
 * Everything in a sheet that physics could not take or no hand could build,
 * in the order of the sheet. Empty: the sheet may be filled in.
 */
export function sheetProblems(sheet: InstrumentSheet): readonly SheetProblem[] {
	const problems: SheetProblem[] = [];
	const say = (field: string, said: string | undefined) => {
		if (said !== undefined) problems.push({field, said});
	};
	say('name', nameProblem(sheet.name));
	const count = sheet.strings.length;
	say('strings', counts.includes(count) ? undefined : `Strings: read ${count}; allowed is 6, 7 or 8, for example 6.`);
	problems.push(...stringsProblems(sheet.strings, 'strings'));
	for (const [field, limit] of Object.entries(sheetLimits)) {
		say(field, outside(limit, sheet[field as keyof typeof sheetLimits]));
	}
	if (sheet.springArmMm !== undefined) say('springArmMm', outside(springArm, sheet.springArmMm));
	if (sheet.springLengthsMm !== undefined) {
		for (const length of sheet.springLengthsMm) say('springLengthsMm', outside(springBody, length));
		say('springLengthsMm', outside(springStretch, stretchMm(sheet.springLengthsMm)));
	}
	for (const turns of sheet.clawTurnsLeft ?? []) say('clawTurnsLeft', outside(clawTurnsLeft, turns));
	if (sheet.before !== undefined) {
		const before = sheet.before.length;
		const isSame = before === count;
		say('before', isSame ? undefined : `Strings before: read ${before}; allowed is as many as now, ${count}.`);
		problems.push(...stringsProblems(sheet.before, 'before'));
	}
	const {practiceSeed: seed} = sheet;
	const isSeed = seed === undefined || (Number.isSafeInteger(seed) && seed >= 0);
	say(
		'practiceSeed',
		isSeed ? undefined : `Practice seed: read ${seed}; allowed is a whole number from 0, for example 7.`,
	);
	return problems;
}

function nameProblem(name: string): string | undefined {
	const length = name.trim().length;
	if (length > 0 && length <= 80) return undefined;
	const read = length === 0 ? 'nothing' : `${length} characters`;
	return `Name: read ${read}; allowed are 1 to 80 characters, for example Red seven-string.`;
}

function stringsProblems(strings: readonly StringSheet[], list: 'strings' | 'before'): readonly SheetProblem[] {
	return stringsOf(strings.length).flatMap(string => {
		const row = strings[string - 1]!;
		const when = list === 'before' ? ' before' : '';
		return stringProblems(row).map(({field, said}) => ({
			field: `${list}.${string - 1}.${field}`,
			string,
			said: `String ${string}${when}. ${said}`,
		}));
	});
}

function stringProblems(row: StringSheet): readonly {readonly field: string; readonly said: string}[] {
	const problems: {field: string; said: string}[] = [];
	const say = (field: string, said: string | undefined) => {
		if (said !== undefined) problems.push({field, said});
	};
	const isNote = parseNote(row.note) !== undefined;
	say(
		'note',
		isNote
			? undefined
			: `Note: read ${row.note || 'nothing'}; allowed is a note with its octave, for example E2 or F#3.`,
	);
	say('gaugeThou', outside(row.wound ? woundGauge : plainGauge, row.gaugeThou));
	if (row.coreThou !== undefined) {
		const isCore = row.wound && row.coreThou >= leastCoreShare * row.gaugeThou && row.coreThou < row.gaugeThou;
		say('coreThou', isCore ? undefined : coreSaid(row, row.coreThou));
	}
	for (const [field, limit] of Object.entries(stringLimits)) {
		const value = row[field as keyof typeof stringLimits];
		if (value !== undefined) say(field, outside(limit, value));
	}
	if (row.saddleRangeMm !== undefined) {
		const [front, back] = row.saddleRangeMm;
		const said = outside(stringLimits.saddleMm, front) ?? outside(stringLimits.saddleMm, back);
		const order =
			front < back
				? undefined
				: `Saddle range: read ${front} to ${back} mm; the forward end comes first, for example -2 to 6.`;
		say('saddleRangeMm', said ?? order);
	}
	return problems;
}

function coreSaid({wound, gaugeThou}: StringSheet, core: number): string {
	if (!wound) return `Core: read ${core} for a plain string, which has none; leave it out.`;
	const least = Math.ceil(leastCoreShare * gaugeThou);
	return `Core: read ${core} thousandths of an inch; allowed is ${least} to less than the gauge, ${gaugeThou}.`;
}
