import type {StringNumber} from '../../source/music/string-number.ts';
import type {Bench, PlateRow, StringRow, TuningAdvice} from '../../source/session/bench.ts';
import {benchOf} from '../../source/session/bench-of.ts';
import {defaultSheet} from '../../source/session/catalog/default-sheet.ts';
import type {Deed, Story} from '../../source/session/facts.ts';
import type {InstrumentSheet} from '../../source/session/sheet.ts';
import type {Answer, KeyAction, Stage, Task} from '../../source/stages/stage.ts';
import {journalOf} from './deeds.ts';

/** What a test pins down of a bench; everything else is worked out from the story. */
export interface Pinned {
	readonly sheet?: Partial<InstrumentSheet>;
	readonly deeds?: readonly Deed[];
	readonly tuning?: TuningAdvice;
	readonly plate?: Partial<PlateRow>;
	readonly rows?: {readonly [S in StringNumber]?: Partial<StringRow>};
	readonly bench?: Partial<Bench>;
}

export const allInTune: TuningAdvice = {
	kind: 'done',
	worst: {string: 3, error: {mean: 0.4, sd: 0.3}},
	probability: 0.97,
};

export function turn(
	string: StringNumber,
	aim: number,
	why: 'next-in-plan' | 'strength' = 'next-in-plan',
): TuningAdvice {
	return {kind: 'turn', string, aimCents: {mean: aim, sd: 1}, gentle: why === 'strength', why};
}

export function toRead(
	string: StringNumber,
	why: Extract<TuningAdvice, {kind: 'read'}>['why'] = 'never-read',
): TuningAdvice {
	return {kind: 'read', string, why};
}

/** The story of these deeds after a default sheet was filled, one entry each. */
export function storyOf(deeds: readonly Deed[] = [], sheet: Partial<InstrumentSheet> = {}): Story {
	return journalOf({type: 'SheetFilled', sheet: {...defaultSheet(), ...sheet}}, ...deeds).story;
}

/** The real bench of a story, with what the test pins down put in its place. */
export function benchWith({sheet = {}, deeds = [], tuning, plate, rows, bench = {}}: Pinned = {}): Bench {
	const real = benchOf(storyOf(deeds, sheet));
	return {
		...real,
		...(tuning && {tuning}),
		plate: {...real.plate, ...plate},
		strings: real.strings.map(row => ({...row, ...rows?.[row.string]})),
		...bench,
	};
}

/** Facts of an answer; fails the test with what was said when it is none. */
export function deedsOf(answer: Answer): readonly Deed[] {
	if (answer.kind !== 'deeds') throw new Error(`expected facts, got ${answer.kind}: ${answer.said}`);
	return answer.deeds;
}

/** What the stage makes of a line typed at its own task. */
export function typed(stage: Stage, text: string, bench: Bench, meant?: boolean): Answer {
	return stage.answer(text, stage.task(bench), bench, meant === undefined ? undefined : {meant});
}

/** Facts that Enter on an empty line stores. */
export function entered({enter, headline}: Task): readonly Deed[] {
	if (!enter || enter.deeds === 'practice') throw new Error(`expected Enter to store facts at: ${headline}`);
	return enter.deeds;
}

export function keyOf(stage: Stage, key: string, bench: Bench): KeyAction | undefined {
	return stage.keys(bench, stage.task(bench)).find(action => action.key === key);
}
