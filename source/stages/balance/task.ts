import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatTail, formatTypedLength} from '../../units/length.ts';
import {formatForce} from '../../units/quantities.ts';
import {formatTurns} from '../../units/turns.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import type {Task} from '../stage.ts';
import {id, type Step, stepOf} from './step.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	switch (step.kind) {
		case 'measure':
			return measureTask(bench, step.again);
		case 'tune':
			// When the claw has been turned the plan always has a next string; a first one is the fallback.
			return guidedTask(bench, 0.3 + 0.5 * tuningShare(bench)) ?? readTask(bench, bench.strings[0]!, '', 0.3);
		case 'claw':
			return clawTask(bench, step.turns);
		case 'springs':
			return springsTask(bench, step.count);
		case 'done':
			return doneTask(bench, step);
	}
}

function measureTask({sheet, plate}: Bench, again: boolean): Task {
	const {measure} = words;
	return {
		headline: again ? measure.again : measure.first,
		why: again && plate.clawTurnsMade !== 0 ? measure.whyAgain : measure.why,
		how: measure.how(formatTypedLength(sheet.tailArmMm, sheet.units)),
		prompt: measure.prompt,
		example: measure.example,
		tableRests: true,
		practice: {kind: 'measure-plate'},
		progress: again ? 0.9 : 0.1,
	};
}

function clawTask({plate, sheet}: Bench, turns: number): Task {
	const {claw} = words;
	const deeds: readonly Deed[] = [{type: 'ClawTurned', trebleTurns: turns, bassTurns: turns}];
	const atPitch = formatTail(plate.tailAtPitchMm.mean, sheet.units);
	return {
		headline: claw.headline(formatTurns(turns)),
		why: claw.why[turns > 0 ? 'tighter' : 'looser'](atPitch),
		how: [claw.how[0], claw.atPitch(atPitch, formatTail(sheet.plateWishMm, sheet.units)), ...claw.how.slice(1)],
		prompt: claw.prompt,
		example: claw.example,
		act: {kind: 'claw', turns},
		enter: {label: claw.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

function springsTask(bench: Bench, count: number): Task {
	const {springs} = words;
	const deeds = springDeeds(bench, count);
	const force = formatForce(bench.plate.springForceN, bench.sheet.units);
	return {
		headline: count > bench.springs ? springs.add(count) : springs.remove(count),
		why: springs.why(formatTurns(bench.plate.clawTurns.mean), force),
		how: [springs.cannot, ...springs.how],
		prompt: springs.prompt,
		example: String(count),
		cautions: [springs.caution],
		act: {kind: 'slacken', strings: bench.strings.map(({string}) => string)},
		enter: {label: springs.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

/** A spring is only touched with the strings slack. */
export function springDeeds({strings}: Bench, springs: number): readonly Deed[] {
	const sounding = strings.filter(({state}) => state !== 'slack' && state !== 'off');
	return [
		...sounding.map(({string}) => ({type: 'StringSlackened', string}) as const),
		{type: 'SpringsChanged', springs},
	];
}

function doneTask({plate, sheet}: Bench, {near}: Extract<Step, {kind: 'done'}>): Task {
	const tail = formatTail(plate.measured?.tailMm ?? plate.tailMm.mean, sheet.units);
	const why = words.done.why(tail, formatTail(sheet.plateWishMm, sheet.units));
	return passTask(id, {headline: words.done.headline, why: near ? `${why} ${words.done.near}` : why});
}
