import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed, Fact} from '../../session/facts.ts';
import {type ChangedString, type ChangeForecast, leastPlayableN} from '../../session/set-change.ts';
import {formatCents} from '../../units/cents.ts';
import {formatTail} from '../../units/length.ts';
import {formatForce} from '../../units/quantities.ts';
import {formatTurns, formatTurnsHalf as half, formatTurnsSpread} from '../../units/turns.ts';
import {armLines} from '../common/arm-lines.ts';
import {gaugeShown, listed, nameOf, rowOf} from '../common/rows.ts';
import type {Task} from '../stage.ts';
import {id} from './place.ts';
import {words} from './words.ts';

/** Turns foreseen less surely than this are worth a test turn of the claw, turns (one standard deviation). Judgement. */
const sureTurns = 0.15;

/** Before anything is undone, and while the turns are anybody's guess. */
export function isTestOffered({change, nut, story, blocked}: Bench): boolean {
	if (change === undefined || change.clawTurns.sd <= sureTurns || nut === 'open' || blocked) return false;
	return !story.some(isTestedOrUndone);
}

function isTestedOrUndone({type}: Fact): boolean {
	return type === 'ClawTurned' || type === 'StringFitted' || type === 'StringRemoved' || type === 'StringSlackened';
}

/** The turns must gain this much by it, as a share of how unsure they are. Judgement. */
const worthShare = 0.2;

/** Whether a ruler along the springs, which undoes nothing, would make the turns surer. */
export function areSpringsOffered({change, blocked}: Bench): boolean {
	if (!change?.clawTurnsIfMeasured || change.clawTurns.sd <= sureTurns || blocked) return false;
	return change.clawTurnsIfMeasured.sd < (1 - worthShare) * change.clawTurns.sd;
}

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
	const {change, strings} = bench;
	if (change) {
		return [
			totalLine(change, bench),
			...plateLines(change, bench),
			...riskLines(bench),
			words.change.each,
			...change.strings.map(each => changedLine(each, bench)),
		];
	}
	const total = formatForce(sum(strings.map(({targetTensionN}) => targetTensionN)), bench.sheet.units);
	return [
		words.change.total(total),
		...riskLines(bench),
		...strings.map(row => stringLine(row, bench)),
		...armLines(bench),
	];
}

function totalLine({totalBeforeN, totalN}: ChangeForecast, {sheet: {units}}: Bench): string {
	const difference = formatForce(totalN.mean - totalBeforeN, units, {signed: true});
	return words.change.totalChange(formatForce(totalBeforeN, units), formatForce(totalN.mean, units), difference);
}

function plateLines(change: ChangeForecast, bench: Bench): readonly string[] {
	const {units} = bench.sheet;
	const {springs} = change;
	const made = bench.plate.clawTurnsMade;
	const lines = [
		words.change.plate(formatTail(change.tailAtPitchMm.mean, units)),
		words.change.claw(formatTurnsSpread(change.clawTurns)),
		...(made === 0 ? [] : [words.change.clawMade(formatTurns(made), formatTurns(change.clawTurns.mean - made))]),
		...(areSpringsOffered(bench) ? [words.change.measure(half(change.clawTurnsIfMeasured!))] : []),
		...(isTestOffered(bench) ? [words.change.test] : []),
	];
	if (springs.kind === 'turns-will-do') return lines;
	const force = formatForce(springs.now.forceN, units);
	return [...lines, words.change.springs[springs.kind](force)];
}

function riskLines({change, strings, forecast}: Bench): readonly string[] {
	const verdictOf = ({string, targetTensionN}: StringRow) => {
		if (change) return change.strings.find(each => each.string === string)?.verdict;
		if (forecast({kind: 'turn', string, toCents: 0}).strain) return 'near-strength';
		return targetTensionN < leastPlayableN ? 'slack' : 'usual';
	};
	const named = (verdict: string) => listed(strings.filter(row => verdictOf(row) === verdict).map(nameOf));
	const [strained, slack] = [named('near-strength'), named('slack')];
	return [
		...(strained === '' ? [] : [words.change.strained(strained)]),
		...(slack === '' ? [] : [words.change.slack(slack)]),
	];
}

function stringLine(row: StringRow, {sheet}: Bench): string {
	return words.change.string(nameOf(row), gaugeShown(row), formatForce(row.targetTensionN, sheet.units));
}

/** Pull before and after, and where it would sound if only the strings were changed. */
function changedLine({string, beforeN, nowN, letGoCents}: ChangedString, bench: Bench): string {
	const {units} = bench.sheet;
	const row = rowOf(bench, string);
	const pull = words.change.stringChange(
		nameOf(row),
		gaugeShown(row),
		formatForce(beforeN, units),
		formatForce(nowN.mean, units),
	);
	return letGoCents ? `${pull}; ${words.change.letGo(formatCents(letGoCents.mean, 0))}` : pull;
}

function sum(numbers: readonly number[]): number {
	return numbers.reduce((total, number) => total + number, 0);
}
