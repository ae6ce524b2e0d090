import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatTail} from '../../units/length.ts';
import {formatTurns} from '../../units/turns.ts';
import {armLines} from '../common/arm-lines.ts';
import {passTask} from '../common/going.ts';
import {guidedTask, readTask, tuningShare} from '../common/guided.ts';
import {springArmExample} from '../common/spring-arm-entry.ts';
import {measurePlateTask} from '../common/measure-plate.ts';
import {reasonWords} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {compareLines} from './compare-lines.ts';
import {cannotTask, springsTask} from './springs-task.ts';
import {armChoice, id, notMeasured, type Step, stepOf, type Turns} from './step.ts';
import {wayTask} from './way-task.ts';
import {words} from './words.ts';

export function task(bench: Bench): Task {
	const step = stepOf(bench);
	switch (step.kind) {
		case 'measure':
			return measurePlateTask(bench, {
				headline: words.measure.headline[step.why],
				why: words.measure.why[step.why],
				progress: step.why === 'first' ? 0.1 : 0.9,
			});
		case 'tune': {
			const progress = 0.3 + 0.5 * tuningShare(bench);
			return guidedTask(bench, progress) ?? readTask(bench, bench.strings[0]!, reasonWords['prove-result'], progress);
		}
		case 'spring-arm':
			return springArmTask();
		case 'way':
			return wayTask(bench);
		case 'claw':
			return clawTask(bench, step.turns);
		case 'springs':
			return springsTask(bench, step.advice);
		case 'cannot':
			return cannotTask(bench, step);
		case 'done':
			return doneTask(bench, step);
	}
}

function springArmTask(): Task {
	const {headline, why, how, prompt, enter: label} = words.springArm;
	return {
		headline,
		why,
		how,
		prompt,
		example: springArmExample,
		tableRests: true,
		enter: {label, deeds: [{type: 'WayChosen', choice: armChoice, value: notMeasured}]},
		practice: {kind: 'measure-spring-arm'},
		progress: 0.15,
	};
}

function clawTask({plate, sheet}: Bench, turns: Turns): Task {
	const {claw} = words;
	const {trebleTurns, bassTurns} = turns;
	const deeds: readonly Deed[] = [{type: 'ClawTurned', ...turns}];
	const isAlike = trebleTurns === bassTurns;
	return {
		headline: isAlike
			? claw.both(formatTurns(trebleTurns))
			: claw.apart(formatTurns(trebleTurns), formatTurns(bassTurns)),
		why: claw.why(formatTail(plate.tailAtPitchMm.mean, sheet.units), formatTail(sheet.plateWishMm, sheet.units)),
		how: [
			...(plate.bySide.twist === 'not-the-claw' ? [claw.notTheClaw] : []),
			...(isAlike ? claw.how : [claw.oneByOne, ...claw.how.slice(1)]),
		],
		prompt: claw.prompt,
		example: claw.example,
		act: {kind: 'claw', turns: (trebleTurns + bassTurns) / 2},
		enter: {label: claw.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

function doneTask(bench: Bench, {stands}: Extract<Step, {kind: 'done'}>): Task {
	const {plate, sheet} = bench;
	const {headline, headlineNear, why} = words.done;
	const tail = formatTail(plate.measured?.tailMm ?? plate.tailMm.mean, sheet.units);
	return passTask(id, {
		headline: stands ? headline : headlineNear,
		why: why(tail, formatTail(sheet.plateWishMm, sheet.units)),
		how: [
			...(plate.bySide.twist === 'not-the-claw' ? [words.claw.notTheClaw] : []),
			...compareLines(bench),
			...armLines(bench),
		],
		tableRests: true,
	});
}
