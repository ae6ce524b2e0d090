import type {Rng} from '../../source/numeric/rng.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import type {SaddleGoal} from '../../source/planning/saddle-plan.ts';
import {placeSupport, removeSupport} from '../../source/practice/bridge-work.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {settled} from '../../source/practice/rest.ts';
import {moveSaddle} from '../../source/practice/saddle-work.ts';
import {openCents} from '../../source/practice/sound.ts';
import {truth} from '../../source/practice/truth.ts';
import {slacken, turnedByHand, turnTo} from '../../source/practice/work.ts';
import {known} from './other-ways.ts';
import type {Stretch} from './saddle-tool.ts';

/** Where the adjustments of one guitar went. */
export interface KnownRun {
	readonly guitar: Guitar;
	readonly moves: readonly number[];
	readonly slackenings: number;
	readonly turns: number;
	readonly spent: Readonly<Record<Stretch, number>>;
	readonly periods: number;
	readonly plucks: number;
}

/**
 * The supported way for a guitar of which everything is known: no reading is
 * needed, only saddles that are truly out are moved, by what truly is to be
 * moved; the aims under the support are played through on a copy. Hand and
 * tuner are left, the saddle's setting, and what windings give meanwhile. No
 * advice can be expected to do with fewer.
 */
export function knownSaddles(
	rng: Rng,
	start: Guitar,
	{saddle, tuning}: {readonly saddle: SaddleGoal; readonly tuning: TuningGoal},
): KnownRun {
	let guitar = start;
	const moves = start.strings.map(() => 0);
	const spent: Record<Stretch, number> = {bringUp: 0, othersOnSupport: 0, toRead: 0, afterProof: 0, claw: 0};
	let [slackenings, periods] = [0, 0];
	for (; periods < 5; periods++) {
		const errors = truth(guitar).fretted12ErrorCents.map(error => (error ?? 0) - saddle.wishCents);
		const off = errors.flatMap((error, string) => (Math.abs(error) > saddle.toleranceCents ? [string] : []));
		if (off.length === 0) break;
		const travels = off.map(string => travelM(guitar, string, errors[string]!));
		guitar = placeSupport(guitar);
		for (const string of off) guitar = slacken(guitar, string);
		slackenings += off.length;
		for (const [at, string] of off.entries()) {
			guitar = moveSaddle(rng, guitar, string, travels[at]!).guitar;
			moves[string]!++;
		}
		let queue: readonly number[] = withOthers(guitar, off, tuning);
		while (queue.length > 0) {
			const [string, ...rest] = queue;
			guitar = turnTo(rng, guitar, string!, aimsOut(guitar, queue).aims[string!]!, 'peg').guitar;
			spent[off.includes(string!) ? 'bringUp' : 'othersOnSupport']++;
			queue = rest;
		}
		guitar = removeSupport(guitar);
	}
	const pass = known(rng, guitar, tuning);
	spent.afterProof = pass.adjustments;
	const turns = spent.bringUp + spent.othersOnSupport + spent.afterProof;
	return {guitar: pass.guitar, moves, slackenings, turns, spent, periods, plucks: 0};
}

/** Travel that takes the error away, tried on a copy twice over. */
function travelM(guitar: Guitar, string: number, errorCents: number): number {
	const before = truth(guitar).fretted12ErrorCents[string] ?? 0;
	let tried = 0.37e-3 * errorCents;
	for (let time = 0; time < 2; time++) {
		const strings = guitar.strings.map((each, at) => (at === string ? {...each, saddleM: each.saddleM + tried} : each));
		const copy = turnedByHand(settled({...guitar, strings}), string, openCents(guitar, string) ?? 0, 'peg').guitar;
		const after = truth(copy).fretted12ErrorCents[string] ?? 0;
		tried *= -errorCents / (after - before);
	}
	return tried;
}

/** The slack ones, and those of the others that would not come home with them. */
function withOthers(guitar: Guitar, slack: readonly number[], {toleranceCents}: TuningGoal): readonly number[] {
	let queue = slack;
	for (;;) {
		const {ends} = aimsOut(guitar, queue);
		const away = ends.map((cents, string) => (queue.includes(string) ? 0 : Math.abs(cents)));
		const worst = away.indexOf(Math.max(...away));
		if (away[worst]! <= toleranceCents - 0.3) return queue;
		queue = [...queue, worst];
	}
}

/** Aims with which the strings of a queue stand at pitch once the support is out, and where all stand then. */
function aimsOut(
	guitar: Guitar,
	queue: readonly number[],
): {readonly aims: readonly number[]; readonly ends: readonly number[]} {
	const aims = guitar.strings.map(() => 0);
	let ends: number[] = [];
	for (let round = 0; round < 12; round++) {
		let end = guitar;
		for (const string of queue) end = turnedByHand(end, string, aims[string]!, 'peg').guitar;
		ends = removeSupport(end).strings.map((_, string) => openCents(removeSupport(end), string) ?? -600);
		if (Math.max(...queue.map(string => Math.abs(ends[string]!))) < 0.05) break;
		for (const string of queue) aims[string] = aims[string]! - ends[string]!;
	}
	return {aims, ends};
}
