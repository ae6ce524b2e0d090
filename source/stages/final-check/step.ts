import type {Bench, StringRow} from '../../session/bench.ts';
import type {Motion} from '../../session/report/arm-proof.ts';
import {type CheckItem, isMet} from '../common/checklist.ts';
import {choiceAfter, isReadAfter, lastOf, reopenedAt} from '../common/story.ts';
import {words} from './words.ts';

export const id = 'final-check';
export const leftOut = 'left out';

/** In the order they are done. */
export const motions = ['dive', 'pull-up', 'bend'] as const satisfies readonly Motion[];

export const lookItems: readonly CheckItem[] = Object.values(words.look.items).map(text => ({
	id: `${id}: ${text}`,
	text,
}));

export type Step =
	| {readonly kind: 'look' | 'plate' | 'tune' | 'done'}
	| {readonly kind: 'open' | 'fretted' | 'after-motion'; readonly rows: readonly StringRow[]}
	| {readonly kind: 'motion'; readonly motion: Motion};

export function stepOf(bench: Bench): Step {
	if (!lookItems.every(item => isMet(item, bench))) return {kind: 'look'};
	return beforeArm(bench) ?? arm(bench) ?? afterArm(bench);
}

/** What the arm left off is taken back, and what was turned is read: the sheet says what was heard, not what is believed. */
function afterArm(bench: Bench): Step {
	if (bench.tuning.kind !== 'done') return {kind: 'tune'};
	const unread = bench.strings.filter(({string}) => !isReadAfter(bench.story, string, 'open', bench.lastAdjustment));
	return unread.length > 0 ? {kind: 'open', rows: unread} : {kind: 'done'};
}

/** Open strings, fretted 12ths and plate, read before the arm is moved. */
function beforeArm(bench: Bench): Step | undefined {
	const {story, strings} = bench;
	// Once the arm has moved, what was read before it stands: after it other readings count.
	if (armAt(bench) >= 0) return undefined;
	const since = bench.lastAdjustment;
	const open = strings.filter(({string}) => !isReadAfter(story, string, 'open', since));
	if (open.length > 0) return {kind: 'open', rows: open};
	const fretted = strings.filter(({string}) => !isReadAfter(story, string, 'fretted', startOf(bench)));
	if (fretted.length > 0) return {kind: 'fretted', rows: fretted};
	return bench.plate.measured?.touchedSince === 0 ? undefined : {kind: 'plate'};
}

function arm(bench: Bench): Step | undefined {
	for (const motion of motions) {
		if (isLeftOut(motion, bench)) continue;
		const moved = movedAt(motion, bench);
		if (moved < 0) return {kind: 'motion', motion};
		const unread = bench.strings.filter(({string}) => !isReadAfter(bench.story, string, 'open', moved));
		if (unread.length > 0) return {kind: 'after-motion', rows: unread};
	}
	return undefined;
}

/** What was proved before the nut was opened, or before this step was opened again, is to be proved again. */
export function startOf({story}: Bench): number {
	return Math.max(lastOf(story, 'NutClamped'), lastOf(story, 'SaddleMoved'), reopenedAt(story, id));
}

function armAt(bench: Bench): number {
	const moved = lastOf(bench.story, 'ArmMoved');
	return moved > startOf(bench) ? moved : -1;
}

/** Place of the last such movement since the check began, or -1. */
export function movedAt(motion: Motion, bench: Bench): number {
	const at = bench.story.findLastIndex(fact => fact.type === 'ArmMoved' && fact.motion === motion);
	return at > startOf(bench) ? at : -1;
}

function isLeftOut(motion: Motion, bench: Bench): boolean {
	return choiceAfter(bench.story, motionChoice(motion), startOf(bench)) === leftOut;
}

export function motionChoice(motion: Motion): string {
	return `${id}: ${motion}`;
}
