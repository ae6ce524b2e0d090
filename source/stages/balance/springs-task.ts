import type {SpringAdvice} from '../../planning/spring-advice.ts';
import type {Bench} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatLength} from '../../units/length.ts';
import {formatForce, formatPercent} from '../../units/quantities.ts';
import {formatTurns} from '../../units/turns.ts';
import type {Task} from '../stage.ts';
import type {Step} from './step.ts';
import {words} from './words.ts';

/** Turns are not enough: another spring, another hook, other springs. */
export function springsTask(bench: Bench, advice: Extract<Step, {kind: 'springs'}>['advice']): Task {
	const {springs} = words;
	const {units} = bench.sheet;
	const {now, outlook} = advice;
	const deeds = springDeeds(bench, outlook.springs);
	return {
		headline: headlineFor(advice),
		why: springs.why(springs.troubles[advice.trouble], formatTurns(now.turns), formatForce(now.forceN, units)),
		how: [
			...(advice.kind === 'exchange' ? [springs.ratio(formatPercent(advice.ratio))] : []),
			springs.afterwards(formatTurns(outlook.turns), formatForce(outlook.forceN, units)),
			...springs.how,
		],
		prompt: springs.prompt,
		example: String(outlook.springs),
		cautions: [springs.caution],
		act: {kind: 'slacken', strings: bench.strings.map(({string}) => string)},
		enter: {label: springs.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

function headlineFor(advice: Extract<Step, {kind: 'springs'}>['advice']): string {
	const {springs} = words;
	switch (advice.kind) {
		case 'add':
			return springs.add(advice.count, advice.outlook.springs);
		case 'remove':
			return springs.remove(advice.count, advice.outlook.springs);
		case 're-hook':
			return springs.reHook[advice.way];
		case 'exchange':
			return springs.exchange[advice.way];
	}
}

/** A spring is only touched with the strings slack. As many as before were hooked elsewhere or exchanged. */
export function springDeeds({strings}: Bench, springs: number): readonly Deed[] {
	const sounding = strings.filter(({state}) => state !== 'slack' && state !== 'off');
	return [
		...sounding.map(({string}) => ({type: 'StringSlackened', string}) as const),
		{type: 'SpringsChanged', springs},
	];
}

/** Level and pitch cannot both be had: said plainly, with what can. */
export function cannotTask(bench: Bench, {advice, turns}: Extract<Step, {kind: 'cannot'}>): Task {
	const {cannot, claw, springs} = words;
	const deeds: readonly Deed[] = [{type: 'ClawTurned', ...turns}];
	return {
		headline: cannot.headline(formatTurns(turns.trebleTurns)),
		why: cannot.why(springs.troubles[advice.trouble]),
		how: whatCan(bench, advice),
		prompt: claw.prompt,
		example: claw.example,
		act: {kind: 'claw', turns: turns.trebleTurns},
		enter: {label: claw.enter, deeds},
		practice: {kind: 'deeds', deeds},
		progress: 0.2,
	};
}

function whatCan({sheet}: Bench, {atEnd, pullShare}: Extract<SpringAdvice, {kind: 'cannot'}>): readonly string[] {
	const {cannot} = words;
	const offMm = 1000 * atEnd.tailOffM;
	const height = formatLength(Math.abs(offMm), sheet.units);
	const way = pullShare < 0 ? cannot.less : cannot.more;
	return [
		cannot.tail(offMm >= 0 ? cannot.high(height) : cannot.low(height)),
		cannot.pull(formatPercent(Math.abs(pullShare)), way),
	];
}
