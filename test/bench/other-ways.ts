import type {Rng} from '../../source/numeric/rng.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {given} from '../../source/practice/deeds.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {pluck} from '../../source/practice/read.ts';
import {settled} from '../../source/practice/rest.ts';
import {openCents} from '../../source/practice/sound.ts';
import {turnedByHand, turnTo} from '../../source/practice/work.ts';

export interface OtherPass {
	readonly guitar: Guitar;
	readonly adjustments: number;
	readonly finished: boolean;
}

/**
 * The usual method: low to high, each string brought to pitch if its reading
 * is out of tolerance, round after round until a whole round finds all within.
 */
export function goRound(rng: Rng, start: Guitar, goal: TuningGoal): OtherPass {
	let guitar = start;
	let adjustments = 0;
	for (let round = 0; round < 60; round++) {
		let clean = true;
		for (let string = guitar.strings.length - 1; string >= 0; string--) {
			const heard = pluck(rng, guitar, string, {how: 'open'});
			guitar = heard.guitar;
			if (heard.cents !== undefined && Math.abs(heard.cents) <= goal.toleranceCents - 0.3) continue;
			clean = false;
			guitar = turnTo(rng, guitar, string, 0, 'peg').guitar;
			adjustments++;
		}

		if (clean) return {guitar, adjustments, finished: true};
	}

	return {guitar, adjustments, finished: false};
}

/**
 * The plan for a fully known instrument: before every turn the rest of the
 * pass is played through on a copy of the simulation, without hand and tuner,
 * and the aims are moved until all land. Only hand and tuner are left to miss;
 * what is off in the end is known without a pluck and turned again.
 */
export function known(rng: Rng, start: Guitar, goal: TuningGoal): OtherPass {
	let guitar = start;
	let adjustments = 0;
	for (let round = 0; round < 20; round++) {
		const off = guitar.strings
			.map((_, string) => string)
			.reverse()
			.filter(string => !(Math.abs(openCents(guitar, string) ?? 1e4) <= goal.toleranceCents - 0.3));
		if (off.length === 0) return {guitar, adjustments, finished: true};
		let queue = round === 0 ? needed(guitar) : off;
		while (queue.length > 0) {
			const [string, ...rest] = queue;
			guitar = turnTo(rng, guitar, string!, shot(guitar, queue).aims[string!]!, 'peg').guitar;
			adjustments++;
			queue = rest;
		}
	}

	return {guitar, adjustments, finished: false};
}

/** Low to high, without the strings that the others bring home. */
function needed(guitar: Guitar): readonly number[] {
	let queue: readonly number[] = guitar.strings.map((_, string) => string).reverse();
	for (const string of queue) {
		const fewer = queue.filter(each => each !== string);
		if (shot(guitar, fewer).worstCents < 1) queue = fewer;
	}

	return queue;
}

/** Largest share of its real strength that any aim may take of a string. */
const mostOfStrength = 0.75;

/** Aims for the strings of a queue, in its order, with which all land when the rest goes as the simulation goes. */
function shot(
	guitar: Guitar,
	queue: readonly number[],
): {readonly aims: readonly number[]; readonly worstCents: number} {
	const aims = guitar.strings.map(() => 0);
	const ceilings = guitar.strings.map(({wire}, string) => {
		const usualN = wire.massKgPerM * (2 * guitar.spec.scaleLengthM * guitar.spec.strings[string]!.targetHz) ** 2;
		return 600 * Math.log2((mostOfStrength * wire.breakN) / usualN);
	});
	let worstCents = Number.POSITIVE_INFINITY;
	for (let round = 0; round < 12 && worstCents > 0.05; round++) {
		let end = guitar;
		for (const string of queue)
			end = turnedByHand(settled(given(end, string, 'turn')), string, aims[string]!, 'peg').guitar;
		const errors = end.strings.map((_, string) => openCents(end, string) ?? -600);
		worstCents = Math.max(...errors.map(Math.abs));
		for (const string of queue) aims[string] = Math.min(ceilings[string]!, aims[string]! - errors[string]!);
	}

	return {aims, worstCents};
}
