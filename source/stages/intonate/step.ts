import type {StringNumber} from '../../music/string-number.ts';
import {areNearPitch} from '../../planning/saddle-readable.ts';
import {type SaddleWay, saddleWays} from '../../planning/saddle-ways.ts';
import type {Bench, ClawByEar, StringRow} from '../../session/bench.ts';
import type {Story} from '../../session/facts.ts';
import {clawDueSince} from '../common/claw-by-ear.ts';
import {takenString} from '../common/guided.ts';
import {isReadAfter, lastOf, readingsAfter} from '../common/story.ts';
import {asideOf, canReadFrets} from './aside.ts';
import {isAccepted, type Status, statusOf} from './status.ts';

export const wayChoice = 'intonation';

export type Step =
	| {readonly kind: 'choose' | 'tune' | 'support' | 'unsupport' | 'done'}
	/** What the person looks at beside the plan. */
	| {readonly kind: 'wishes'}
	| {readonly kind: 'frets'; readonly row: StringRow}
	/** With the support in: a slackened string, to where it will be at pitch without the support. */
	| {readonly kind: 'bring-up'; readonly row: StringRow; readonly aimCents: number}
	/** A reading, a check or a measure, whichever the plan of this saddle asks for. */
	| {readonly kind: 'learn'; readonly row: StringRow}
	/** Plucks that tell how well the support holds. */
	| {readonly kind: 'probe'; readonly row: StringRow}
	/** Off together once the support is out: the claw brings them back. */
	| {readonly kind: 'claw'; readonly due: ClawByEar}
	| {readonly kind: 'slacken'; readonly rows: readonly StringRow[]}
	| {readonly kind: 'move'; readonly row: StringRow};

export function wayOf({ways}: Bench): SaddleWay | undefined {
	return saddleWays.find(way => way === ways[wayChoice]);
}

/** What is open, by the way chosen; the way may be changed over at any time. */
export function stepOf(bench: Bench): Step {
	const aside = asideOf(bench);
	if (aside?.kind === 'wishes' || (aside && canReadFrets(aside.row, bench))) return aside;
	const way = wayOf(bench);
	if (!way) return {kind: 'choose'};
	return way === 'string-by-string' ? oneByOne(bench) : allAtOnce(bench, way === 'blocked');
}

/** Read all, move all in one slack period, one guided pass, prove; on a support or floating. */
function allAtOnce(bench: Bench, isBlockedWay: boolean): Step {
	const rows = withStatus(bench);
	const off = rows['to-move'];
	const slack = off.find(({state}) => state === 'slack');
	if (slack) return {kind: 'move', row: slack};
	if (rows['to-read'].length > 0) return beforeReading(bench) ?? {kind: 'learn', row: chosen(rows['to-read'], bench)};
	if (rows['to-prove'].length > 0) {
		const before = isBlockedWay ? nearHome(bench) : home(bench);
		return before ?? {kind: 'learn', row: chosen(rows['to-prove'], bench)};
	}
	if (off.length > 0) return (isBlockedWay ? supportStep(bench) : undefined) ?? {kind: 'slacken', rows: off};
	return home(bench) ?? {kind: 'done'};
}

/** Each string read, moved, brought back and proved before the next. */
function oneByOne(bench: Bench): Step {
	for (const row of bench.strings) {
		const status = statusOf(row, bench);
		if (status === 'to-read') return beforeReading(bench) ?? {kind: 'learn', row};
		if (status === 'to-move') return row.state === 'slack' ? {kind: 'move', row} : {kind: 'slacken', rows: [row]};
		if (status === 'to-prove') return nearHome(bench) ?? {kind: 'learn', row};
	}
	const again = unseenSinceSlack(bench);
	if (again) return nearHome(bench) ?? {kind: 'learn', row: again};
	return home(bench) ?? {kind: 'done'};
}

/**
 * A string not looked at since the last other one hung slack: that threw it
 * sharp and back, wire slid at the nut, and its fretted note may have moved.
 */
function unseenSinceSlack(bench: Bench): StringRow | undefined {
	const {story, strings} = bench;
	return strings.find(row => {
		const others = strings.filter(({string}) => string !== row.string);
		const slackened = Math.max(...others.map(({string}) => lastOf(story, 'StringSlackened', string)));
		return slackened >= 0 && !isAccepted(row.string, bench) && !isReadAfter(story, row.string, 'fretted', slackened);
	});
}

/** Nothing is read for intonation while strings hang slack or a support is in. */
function beforeReading(bench: Bench): Step | undefined {
	const isDisturbed = bench.blocked || bench.strings.some(({state}) => state === 'slack');
	return isDisturbed ? home(bench) : undefined;
}

/** What brings strings and bridge back before anything is proved; undefined when they are back. */
function home(bench: Bench): Step | undefined {
	if (bench.blocked) return bringUp(bench) ?? (isAnyLoose(bench) ? {kind: 'tune'} : {kind: 'unsupport'});
	const due = clawTurnDue(bench);
	if (due) return {kind: 'claw', due};
	return bench.tuning.kind === 'done' ? undefined : {kind: 'tune'};
}

/**
 * Moved saddles ask for other tensions, and let go the plate comes to rest a
 * little elsewhere than foreseen: all strings are off by one pattern, and a
 * touch of the claw spares turning them one by one.
 */
function clawTurnDue(bench: Bench): ClawByEar | undefined {
	const {story} = bench;
	const moved = lastOf(story, 'SaddleMoved');
	const out = lastOf(story, 'SupportRemoved');
	if (wayOf(bench) !== 'blocked' || moved < lastOf(story, 'SupportPlaced') || out < moved) return undefined;
	return clawDueSince(out, bench);
}

/** What brings them near enough to be read; the rest of the tuning waits until all is proved, and is done once. */
function nearHome(bench: Bench): Step | undefined {
	return areNearPitch(bench.strings.map(({now}) => now)) && !bench.blocked ? undefined : home(bench);
}

function isAnyLoose({strings}: Bench): boolean {
	return strings.some(({state}) => state === 'slack' || state === 'off');
}

/** With the support in no string moves another: each that has an aim goes straight to it, those that hang first. */
function bringUp(bench: Bench): Step | undefined {
	const open = bench.strings.flatMap(row => {
		const aim = row.saddle?.aimUnderSupport;
		return aim && row.state !== 'off' ? [{row, aimCents: aim.mean}] : [];
	});
	const taken = takenString(bench);
	const next = open.find(({row}) => row.string === taken) ?? open.find(({row}) => row.state === 'slack') ?? open[0];
	return next && {kind: 'bring-up', ...next};
}

/** Strings that tell how well a support holds: the plain third and the thickest react most. */
function supportStep(bench: Bench): Step | undefined {
	if (!bench.blocked) return {kind: 'support'};
	const placed = lastOf(bench.story, 'SupportPlaced');
	const unread = probesOf(bench).find(({string}) => !isReadAfter(bench.story, string, 'open', placed));
	return unread && {kind: 'probe', row: unread};
}

function probesOf({strings}: Bench): readonly StringRow[] {
	return strings.filter(({string}) => string === 3 || string === strings.length);
}

/** Shift of the plucks that the support made, of all probes alike, that shows more than the tuner's own noise, cents. */
const heldOffCents = 2;

/** Whether the support, as it is in now, holds the plate where it floated: by what the probes read before any was in, and since. */
export function holdOf(bench: Bench): 'level' | 'lifted' | 'let-down' | undefined {
	const {story} = bench;
	const placed = lastOf(story, 'SupportPlaced');
	const shifts = probesOf(bench).map(({string}) => {
		const then = lastFloating(story, string);
		const now = readingsAfter(story, string, 'open', placed);
		if (!then || now.length === 0) return undefined;
		return now.reduce((sum, {cents}) => sum + cents, 0) / now.length - then.cents;
	});
	if (shifts.some(shift => shift === undefined)) return undefined;
	// Strings get longer, and sharper, as the tail sinks.
	if (shifts.every(shift => shift! > heldOffCents)) return 'let-down';
	return shifts.every(shift => shift! < -heldOffCents) ? 'lifted' : 'level';
}

/** The last open pitch or harmonic of a string that was read while the bridge floated. */
function lastFloating(story: Story, string: StringNumber): {readonly cents: number} | undefined {
	let isBlocked = false;
	let last: {readonly cents: number} | undefined;
	for (const fact of story) {
		if (fact.type === 'SupportPlaced') isBlocked = true;
		else if (fact.type === 'SupportRemoved') isBlocked = false;
		else if (fact.type === 'PitchRead' && !isBlocked && fact.string === string && fact.how !== 'fretted') last = fact;
	}
	return last;
}

/** The string that the person chose, else one half read, else the first. */
function chosen(rows: readonly StringRow[], bench: Bench): StringRow {
	const taken = takenString(bench);
	const isBegun = ({string}: StringRow) => isReadAfter(bench.story, string, 'harmonic', bench.lastAdjustment);
	return rows.find(({string}) => string === taken) ?? rows.find(isBegun) ?? rows[0]!;
}

function withStatus(bench: Bench): Readonly<Record<Status, readonly StringRow[]>> {
	const rows: Record<Status, StringRow[]> = {'to-read': [], 'to-prove': [], 'to-move': [], good: []};
	for (const row of bench.strings) rows[statusOf(row, bench)].push(row);
	return rows;
}
