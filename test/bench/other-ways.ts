import type {Rng} from '../../source/numeric/rng.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {type Guitar, withString} from '../../source/practice/guitar.ts';
import {pluck} from '../../source/practice/read.ts';
import {turnTo} from '../../source/practice/work.ts';
import {pitchesBalanced} from '../../source/practice/poise.ts';
import {settled} from '../../source/practice/rest.ts';
import {openCents} from '../../source/practice/sound.ts';

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
	return rounds(rng, start, goal, () => 0);
}

/**
 * The plan for a fully known instrument: the simulation itself, asked where
 * this string must stand now so that it lands when all are done.
 */
export function known(rng: Rng, start: Guitar, goal: TuningGoal): OtherPass {
	return rounds(rng, start, goal, knownAimCents);
}

function knownAimCents(guitar: Guitar, string: number): number {
	const end = pitchesBalanced(guitar, []);
	const {frontM, behindM} = end.strings[string]!;
	return openCents(settled(withString(guitar, string, {frontM, behindM})), string) ?? 0;
}

function rounds(rng: Rng, start: Guitar, goal: TuningGoal, aim: (guitar: Guitar, string: number) => number): OtherPass {
	let guitar = start;
	let adjustments = 0;
	for (let round = 0; round < 60; round++) {
		let clean = true;
		for (let string = guitar.strings.length - 1; string >= 0; string--) {
			const heard = pluck(rng, guitar, string, {how: 'open'});
			guitar = heard.guitar;
			if (heard.cents !== undefined && Math.abs(heard.cents - aim(guitar, string)) <= goal.toleranceCents - 0.3) continue;
			clean = false;
			guitar = turnTo(rng, guitar, string, aim(guitar, string), 'peg').guitar;
			adjustments++;
		}

		if (clean) return {guitar, adjustments, finished: true};
	}

	return {guitar, adjustments, finished: false};
}
