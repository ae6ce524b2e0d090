import type {StringNumber} from '../music/string-number.ts';
import {isAlarming} from '../planning/diagnosis-alert.ts';
import type {Bench} from '../session/bench.ts';
import {causeLines, diagnosisWords} from '../session/report/sections.ts';
import type {Stage} from '../stages/stage.ts';

/** Readings of strings that nobody touched, too far from what is believed to go on without a look. */
export interface OddReadings {
	/** Where it is one string's. */
	readonly string?: StringNumber;
	/** What fits best, how well, and what to check. */
	readonly said: string;
}

/** Steps that judge what was read themselves. */
const ownJudges = ['intake', 're-check'];

/**
 * @param stage The step that is open; undefined at the end, where nothing is judged.
 * @returns Undefined while the readings are what a sound guitar may show.
 */
export function oddReadings(bench: Bench, stage: Stage | undefined): OddReadings | undefined {
	// Only a reading can be odd, and what the arm left behind is told by the step that moved it.
	if (!stage || ownJudges.includes(stage.id) || bench.story.at(-1)?.type !== 'PitchRead') return undefined;
	if (bench.story.slice(bench.lastAdjustment).some(({type}) => type === 'ArmMoved')) return undefined;
	const found = bench.diagnosis();
	if (!found || !isAlarming(found)) return undefined;
	const {string} = found;
	const [likeliest] = found.suspicions;
	// A string put on in this set-up goes on giving for a while; the plan reckons with it, and it looks much like a fault.
	if (bench.story.some(fact => fact.type === 'StringFitted' && fact.string === likeliest!.string)) return undefined;
	const isTold = found.verdict !== 'unclear' && found.verdict !== 'sound';
	const sure = isTold ? ` (${causeLines(found).join(', ')})` : '';
	const told = diagnosisWords(isTold ? found : {...found, verdict: 'unclear'});
	return {said: `Untouched strings read otherwise than believed: ${told}${sure}.`, ...(string && {string})};
}

/** The same bench with the odd string marked in the table. */
export function withOddMarked(bench: Bench, odd: OddReadings | undefined): Bench {
	if (odd?.string === undefined) return bench;
	const strings = bench.strings.map(row =>
		row.string === odd.string ? {...row, state: 'needs a look' as const} : row,
	);
	return {...bench, strings};
}
