import type {StringNumber} from '../../music/string-number.ts';
import type {Estimate} from '../../numeric/estimate.ts';
import type {SaddleStep} from '../../planning/saddle-plan.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import type {Story} from '../../session/facts.ts';
import {lastOf, readingsAfter} from '../common/story.ts';
import {words} from './words.ts';

export const id = 'intonate';

/** Where one string is on its way. Reading, measuring and checking come before the first move and after each. */
export type Status = 'to-read' | 'to-prove' | 'to-move' | 'good';

/** A move shorter than this cannot be set by hand, mm. */
const leastMoveMm = 0.05;

export function statusOf(row: StringRow, bench: Bench): Status {
	if (isAccepted(row.string, bench)) return 'good';
	const step = planned(row);
	switch (step.kind) {
		case 'leave':
			return 'good';
		case 'move':
			return 'to-move';
		case 'out-of-travel':
			return Math.abs(step.travelMm) < leastMoveMm ? 'good' : 'to-move';
		case 'read':
		case 'check':
		case 'measure-place':
			return isMoved(row.string, bench) ? 'to-prove' : 'to-read';
	}
}

/** What the plan says of this saddle; before anything is known, to read it. */
export function planned({saddle}: StringRow): SaddleStep {
	return saddle?.step ?? {kind: 'read', plucks: 1, why: 'never-read'};
}

/** Travel that is to be set, mm, positive = back: as far as can be reached. */
export function travelMmOf(row: StringRow): number {
	const step = planned(row);
	return step.kind === 'move' || step.kind === 'out-of-travel' ? step.travelMm : 0;
}

/** Fretted 12th minus harmonic, against what is wanted of this string, cents; undefined while nothing was read. */
export function errorOf({saddle, intonationCents}: StringRow): Estimate | undefined {
	return intonationCents && saddle?.errorCents;
}

/** Fretted 12th minus harmonic that is wanted of this string, cents; 0 unless somebody wants otherwise. */
export function wishOf({string}: StringRow, {sheet}: Bench): number {
	return sheet.strings[string - 1]?.frettedOffsetCents ?? 0;
}

/** The way to be sounded next: both equally often with nothing touched in between, the harmonic first. */
function nextSounding(string: StringNumber, {story, lastAdjustment}: Bench): 'harmonic' | 'fretted' {
	const count = (how: 'harmonic' | 'fretted') => readingsAfter(story, string, how, lastAdjustment).length;
	return count('harmonic') <= count('fretted') ? 'harmonic' : 'fretted';
}

/** How the string was sounded last with nothing touched since; undefined before. */
function lastSounding(string: StringNumber, {story, lastAdjustment}: Bench): 'harmonic' | 'fretted' | undefined {
	const lastAt = (how: 'harmonic' | 'fretted') => {
		const last = readingsAfter(story, string, how, lastAdjustment).at(-1);
		return last ? story.lastIndexOf(last as Story[number]) : -1;
	};
	const [harmonic, fretted] = [lastAt('harmonic'), lastAt('fretted')];
	if (harmonic < 0 && fretted < 0) return undefined;
	return harmonic > fretted ? 'harmonic' : 'fretted';
}

/** What is to be done to learn about this saddle. */
export type Learning = {readonly kind: 'sound'; readonly how: 'harmonic' | 'fretted'} | {readonly kind: 'measure'};

export function learningOf(row: StringRow, bench: Bench): Learning {
	const step = planned(row);
	if (step.kind === 'measure-place') return {kind: 'measure'};
	if (step.kind !== 'check') return {kind: 'sound', how: nextSounding(row.string, bench)};
	switch (step.check) {
		case 'press-lightly':
			// Against a harmonic of the same time, or it says nothing.
			return {kind: 'sound', how: lastSounding(row.string, bench) ? 'fretted' : 'harmonic'};
		case 'harmonic-again':
			return {kind: 'sound', how: lastSounding(row.string, bench) === 'harmonic' ? 'fretted' : 'harmonic'};
		case 'measure-saddle':
			// A ruler tells once; if that did not settle it, only the notes can.
			return isMeasured(row.string, bench) ? {kind: 'sound', how: nextSounding(row.string, bench)} : {kind: 'measure'};
	}
}

/** True once the saddle was measured where it stands. */
function isMeasured(string: StringNumber, {story}: Bench): boolean {
	return lastOf(story, 'SaddleMeasured', string) > lastOf(story, 'SaddleMoved', string);
}

/** True once the saddle was moved on the string that is on now. */
export function isMoved(string: StringNumber, {story}: Bench): boolean {
	return lastOf(story, 'SaddleMoved', string) > lastOf(story, 'StringFitted', string);
}

export function isAccepted(string: StringNumber, {ticked}: Bench): boolean {
	return ticked[words.accepted(string)] === true;
}
