import {turnStep} from '../../planning/claw-limits.ts';
import type {SpringAdvice} from '../../planning/spring-advice.ts';
import type {Bench} from '../../session/bench.ts';
import {choiceAfter, lastOf, plateSeenAt} from '../common/story.ts';
import {isWayOpen} from './way-task.ts';

export const id = 'balance';
export const plateChoice = 'plate';
export const measureAgain = 'measure again';
export const clawAnyway = 'claw anyway';
export const armChoice = 'spring arm';
export const notMeasured = 'not measured';

/** Turns of the two screws, positive tightens. */
export interface Turns {
	readonly trebleTurns: number;
	readonly bassTurns: number;
}

export type Step =
	| {readonly kind: 'measure'; readonly why: 'first' | 'on-the-way' | 'proof' | 'second' | 'near-edge' | 'wish'}
	| {readonly kind: 'tune'}
	/** The springs' arm, before the first bold turn. */
	| {readonly kind: 'spring-arm'}
	/** Which way a bold turn of the claw is to be made. */
	| {readonly kind: 'way'}
	| {readonly kind: 'claw'; readonly turns: Turns}
	| {readonly kind: 'springs'; readonly advice: Exclude<SpringAdvice, {kind: 'turns-will-do' | 'cannot'}>}
	/** Level and pitch cannot both be had; the claw goes as far as it can. */
	| {readonly kind: 'cannot'; readonly advice: Extract<SpringAdvice, {kind: 'cannot'}>; readonly turns: Turns}
	| {readonly kind: 'done'; readonly stands: boolean};

/** Measure, one claw step, one guided pass, proof; a look on the way where the step is not surely right, and a trim only if that shows it is wanted. */
export function stepOf(bench: Bench): Step {
	const {story, plate, tuning} = bench;
	const measured = plateSeenAt(story);
	const changed = Math.max(lastOf(story, 'ClawTurned'), lastOf(story, 'SpringsChanged'));
	const chosen = choiceAfter(story, plateChoice, Math.max(measured, changed));
	if (chosen === measureAgain) return {kind: 'measure', why: 'wish'};
	if (measured < 0) return {kind: 'measure', why: 'first'};
	const isTuned = tuning.kind === 'done';
	const isFresh = changed < measured && plate.measured?.touchedSince === 0;
	if (!isFresh && !isTuned) return plate.isLookDue ? {kind: 'measure', why: 'on-the-way'} : {kind: 'tune'};
	if (!isFresh) return {kind: 'measure', why: changed >= 0 ? 'proof' : 'first'};
	// A twist that still answers to the claw is turned out, however well the mean of both sides stands.
	const isTwisted = plate.bySide.twist === 'unequal';
	if (isTuned && plate.verdict === 'stands' && !isTwisted) return {kind: 'done', stands: true};
	if (isTuned && plate.verdict === 'measure-again' && !isTwisted) return {kind: 'measure', why: 'near-edge'};
	const isTurning = plate.springs.kind === 'turns-will-do';
	if (!isTuned && !plate.isTurnWorth && !isTwisted && isTurning) return {kind: 'tune'};
	const next = correction(bench, chosen === clawAnyway);
	if (next.kind !== 'claw') return next;
	if (chosen !== clawAnyway && isWayOpen(next.turns, bench)) return {kind: 'way'};
	if (plate.isArmWanted && choiceAfter(story, armChoice, -1) === undefined) return {kind: 'spring-arm'};
	return plate.isSecondLookDue ? {kind: 'measure', why: 'second'} : next;
}

/** What brings the plate where it is wanted; with nothing left to turn, the strings, and then it is as near as it gets. */
function correction({plate, tuning}: Bench, isClawWanted: boolean): Step {
	const rest: Step = tuning.kind === 'done' ? {kind: 'done', stands: false} : {kind: 'tune'};
	const {springs, bySide} = plate;
	if (springs.kind === 'cannot' && !isClawWanted) {
		const turns = inSteps(springs.atEnd.turns);
		return turns === 0 ? rest : {kind: 'cannot', advice: springs, turns: {trebleTurns: turns, bassTurns: turns}};
	}
	if (springs.kind !== 'cannot' && springs.kind !== 'turns-will-do' && !isClawWanted) {
		return {kind: 'springs', advice: springs};
	}
	const {trebleTurns, bassTurns} = bySide;
	return trebleTurns === 0 && bassTurns === 0 ? rest : {kind: 'claw', turns: {trebleTurns, bassTurns}};
}

/** What a hand can turn, towards nothing, so that no end is passed. */
function inSteps(turns: number): number {
	return Math.trunc(turns / turnStep) * turnStep + 0;
}
