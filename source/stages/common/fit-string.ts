import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import type {Task} from '../stage.ts';
import {gaugeShown, nameOf} from './rows.ts';
import {fit as words, stringCaution} from './words.ts';

/** A string is off: a new one goes on, with the clamps off if they are on. */
export function fitTask(row: StringRow, {nut}: Bench, progress: number): Task {
	const {string} = row;
	const {headline, why, how, clampsFirst, enter: label} = words;
	const deeds: readonly Deed[] = [
		...(nut === 'locked' ? [{type: 'NutOpened'} as const] : []),
		{type: 'StringFitted', string},
	];
	return {
		headline: headline(nameOf(row), gaugeShown(row)),
		why,
		how: [...(nut === 'locked' ? [clampsFirst] : []), ...how],
		prompt: label,
		string,
		cautions: [stringCaution],
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress,
	};
}
