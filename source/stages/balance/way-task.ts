import {planSupportWay} from '../../planning/tuning-ways.ts';
import type {Bench} from '../../session/bench.ts';
import {formatNumber} from '../../units/number.ts';
import {formatTail} from '../../units/length.ts';
import {answerChoice, type Choice, choiceTask} from '../common/choices.ts';
import {onSupportInstead, type TuningWay, tuningWayChoice, tuningWayOf} from '../common/tuning-way.ts';
import type {Answer, Task} from '../stage.ts';
import type {Turns} from './step.ts';
import {words} from './words.ts';

/** Turns of the claw from which a support is worth its while. Judgement. */
const ledTurns = 3 / 8;

/** A bold turn of a claw is as well led by ear, from a support at the wished height. */
export function isSupportWorth({trebleTurns, bassTurns}: Turns, bench: Bench): boolean {
	if (bench.nut === 'locked' || bench.blocked || tuningWayOf(bench) === 'support') return false;
	return Math.abs(trebleTurns + bassTurns) / 2 >= ledTurns;
}

/** True where nobody has said yet which of the two ways it is to be. */
export function isWayOpen(turns: Turns, bench: Bench): boolean {
	// Where the two screws are to be turned apart, no string tells how far.
	const areAlike = turns.trebleTurns === turns.bassTurns;
	return tuningWayOf(bench) === undefined && areAlike && isSupportWorth(turns, bench);
}

function waysFor({strings}: Bench): readonly Choice<TuningWay>[] {
	const turns = planSupportWay(strings.length, 'tilted');
	return (['support', 'floating'] as const).map(value => ({
		value,
		label: words.way.labels[value],
		note: words.way.cost(formatNumber(turns[value], 0)),
	}));
}

export function wayTask(bench: Bench): Task {
	const {plate, sheet} = bench;
	const {headline, why} = words.way;
	const task = choiceTask(tuningWayChoice, waysFor(bench), 'support', {
		headline: headline(formatTail(plate.tailAtPitchMm.mean, sheet.units), formatTail(sheet.plateWishMm, sheet.units)),
		why,
		progress: 0.2,
	});
	return {
		...task,
		enter: {label: task.enter!.label, deeds: onSupportInstead},
		practice: {kind: 'deeds', deeds: onSupportInstead},
	};
}

export function answerWay(text: string, bench: Bench): Answer {
	const answer = answerChoice(text, tuningWayChoice, waysFor(bench));
	const isSupport =
		answer.kind === 'deeds' && answer.deeds.some(deed => deed.type === 'WayChosen' && deed.value === 'support');
	return isSupport ? {kind: 'deeds', deeds: onSupportInstead} : answer;
}
