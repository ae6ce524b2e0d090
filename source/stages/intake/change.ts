import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatTail} from '../../units/length.ts';
import {formatForce} from '../../units/quantities.ts';
import {formatTurnsSpread} from '../../units/turns.ts';
import {leastPlayableN, springForceRangeN} from '../common/limits.ts';
import {gaugeShown, listed, nameOf} from '../common/rows.ts';
import type {Task} from '../stage.ts';
import {id} from './place.ts';
import {words} from './words.ts';

/** What the strings chosen will do, before anything is undone. */
export function changeTask(bench: Bench): Task {
	const {headline, headlineChange, why, enter: label, prompt} = words.change;
	const deeds: readonly Deed[] = [{type: 'StagePassed', stage: id}];
	return {
		headline: bench.sheet.before ? headlineChange : headline,
		why,
		how: changeLines(bench),
		prompt,
		tableRests: true,
		enter: {label, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.9,
	};
}

/** Most needed first: the sum, what the bridge does, what is risky, then string by string. */
export function changeLines(bench: Bench): readonly string[] {
	const {strings} = bench;
	const isChange = strings.every(({tensionBeforeN}) => tensionBeforeN !== undefined);
	return [
		totalLine(bench, isChange),
		...(isChange ? plateLines(bench) : []),
		...riskLines(bench),
		...strings.map(row => stringLine(row, bench)),
	];
}

function totalLine({strings, sheet}: Bench, isChange: boolean): string {
	const nowN = sum(strings.map(({targetTensionN}) => targetTensionN));
	const now = formatForce(nowN, sheet.units);
	if (!isChange) return words.change.total(now);
	const beforeN = sum(strings.map(({tensionBeforeN}) => tensionBeforeN ?? 0));
	const difference = formatForce(nowN - beforeN, sheet.units, {signed: true});
	return words.change.totalChange(formatForce(beforeN, sheet.units), now, difference);
}

function plateLines({plate, sheet}: Bench): readonly string[] {
	const [least, most] = springForceRangeN;
	const isUsual = plate.springForceN >= least && plate.springForceN <= most;
	return [
		words.change.plate(formatTail(plate.tailAtPitchMm.mean, sheet.units)),
		words.change.claw(formatTurnsSpread(plate.clawTurns)),
		...(isUsual ? [] : [words.change.springs(formatForce(plate.springForceN, sheet.units))]),
	];
}

function riskLines(bench: Bench): readonly string[] {
	const strained = bench.strings.filter(
		({string}) => bench.forecast({kind: 'turn', string, toCents: 0}).strain !== undefined,
	);
	const slack = bench.strings.filter(({targetTensionN}) => targetTensionN < leastPlayableN);
	return [
		...(strained.length > 0 ? [words.change.strained(listed(strained.map(nameOf)))] : []),
		...(slack.length > 0 ? [words.change.slack(listed(slack.map(nameOf)))] : []),
	];
}

function stringLine(row: StringRow, {sheet}: Bench): string {
	const gauge = gaugeShown(row);
	const now = formatForce(row.targetTensionN, sheet.units);
	if (row.tensionBeforeN === undefined) return words.change.string(nameOf(row), gauge, now);
	return words.change.stringChange(nameOf(row), gauge, formatForce(row.tensionBeforeN, sheet.units), now);
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((total, number) => total + number, 0);
}
