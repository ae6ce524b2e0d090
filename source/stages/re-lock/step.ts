import type {Bench, StringRow} from '../../session/bench.ts';
import {formatCentsSpread} from '../../units/cents.ts';
import {formatTail} from '../../units/length.ts';
import {type CheckItem, isMet} from '../common/checklist.ts';
import {takenString} from '../common/guided.ts';
import {plateToleranceMm} from '../../session/plate.ts';
import {listed, nameOf, rowOf} from '../common/rows.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {words} from './words.ts';

export const id = 're-lock';

export type Step =
	| {readonly kind: 'tune' | 'ready' | 'clamp' | 'done'}
	/** Clamping moved them all; each is read once before anything is corrected. */
	| {readonly kind: 'read'; readonly rows: readonly StringRow[]};

export function stepOf(bench: Bench): Step {
	// A string that the person takes once more is tuned before all else.
	const isTuned = bench.tuning.kind === 'done' && takenString(bench) === undefined;
	if (bench.nut === 'open') {
		if (!isTuned) return {kind: 'tune'};
		const isReady = readiness(bench).every(item => isMet(item, bench));
		return {kind: isReady ? 'clamp' : 'ready'};
	}
	const clamped = lastOf(bench.story, 'NutClamped');
	const unread = bench.strings.filter(({string}) => !isReadAfter(bench.story, string, 'open', clamped));
	if (unread.length > 0) return {kind: 'read', rows: unread};
	return {kind: isTuned ? 'done' : 'tune'};
}

/** What must be so before the clamps go on, what the program sees of it itself, and why. */
export function readiness(bench: Bench): readonly CheckItem[] {
	const {ready} = words;
	return [
		{id: 're-lock: pitches', text: ready.pitches, ...pitchesSeen(bench)},
		stretchedItem(bench),
		{id: 're-lock: plate', text: ready.plate, ...plateSeen(bench)},
		{id: 're-lock: fine tuners', text: ready.fineTuners},
		{id: 're-lock: saddle screws', text: ready.saddles},
		{id: 're-lock: strings flat on the nut', text: ready.flat},
	];
}

function pitchesSeen(bench: Bench): Pick<CheckItem, 'seen'> {
	const {tuning} = bench;
	if (tuning.kind !== 'done') return {};
	const {string, error} = tuning.worst;
	const reason = words.ready.pitchesWhy(nameOf(rowOf(bench, string)), formatCentsSpread(error));
	return {seen: {ok: true, reason}};
}

function stretchedItem({story, strings}: Bench): CheckItem {
	const {stretched, stretchedWhy, oldWhy, unstretched} = words.ready;
	const item = {id: 're-lock: strings stretched in', text: stretched};
	const fresh = strings.filter(({string}) => lastOf(story, 'StringFitted', string) >= 0);
	if (fresh.length === 0) return {...item, seen: {ok: true, reason: oldWhy}};
	const unpulled = fresh.filter(
		({string}) => lastOf(story, 'StringStretched', string) < lastOf(story, 'StringFitted', string),
	);
	// Pulled without saying so is the person's to tick.
	if (unpulled.length > 0) return {...item, text: unstretched(listed(unpulled.map(({string}) => string)))};
	return {...item, seen: {ok: true, reason: stretchedWhy}};
}

function plateSeen({plate, sheet}: Bench): Pick<CheckItem, 'seen'> {
	const off = Math.abs(plate.tailMm.mean - sheet.plateWishMm);
	// Never measured, or believed to be off: then the eye decides.
	if (!plate.measured || off > 2 * plateToleranceMm) return {};
	const reason = words.ready.plateWhy(
		formatTail(plate.tailMm.mean, sheet.units),
		formatTail(sheet.plateWishMm, sheet.units),
	);
	return {seen: {ok: true, reason}};
}
