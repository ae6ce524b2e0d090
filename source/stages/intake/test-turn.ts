import {turnStep} from '../../planning/claw-limits.ts';
import type {Bench, StringRow} from '../../session/bench.ts';
import type {Deed} from '../../session/facts.ts';
import {formatTurns} from '../../units/turns.ts';
import {nameOf} from '../common/rows.ts';
import {isReadAfter, lastOf} from '../common/story.ts';
import {measurePlateTask} from '../common/measure-plate.ts';
import {guided, stringCaution} from '../common/words.ts';
import type {Task} from '../stage.ts';
import {words} from './words.ts';

/** What is open in a test turn of the claw: strings and plate before it, the turn, strings and plate after it. */
export type TestStep =
	| {readonly kind: 'read'; readonly row: StringRow; readonly isAfter: boolean}
	| {readonly kind: 'measure'; readonly isAfter: boolean}
	| {readonly kind: 'claw'; readonly turns: number};

/**
 * Undefined once all of it is done.
 * @param begun Place in the story where the test was chosen.
 */
export function testStepOf(bench: Bench, begun: number): TestStep | undefined {
	const {story, strings} = bench;
	const turned = story.findIndex(({type}, at) => at > begun && type === 'ClawTurned');
	const isAfter = turned >= 0;
	const unread = strings.find(({string}) => !isReadAfter(story, string, 'open', isAfter ? turned : begun));
	if (unread) return {kind: 'read', row: unread, isAfter};
	if (lastOf(story, 'PlateMeasured') < turned || lastOf(story, 'PlateMeasured') < 0) return {kind: 'measure', isAfter};
	return isAfter ? undefined : {kind: 'claw', turns: testTurns(bench)};
}

/** A whole turn, the way that the change will want anyway, so that it is not turned in vain. */
export function testTurns({change}: Bench): number {
	return change && change.clawTurns.mean < -turnStep ? -1 : 1;
}

export function testTask(bench: Bench, step: TestStep): Task {
	const {test} = words;
	const progress = step.kind === 'read' && !step.isAfter ? 0.8 : 0.85;
	switch (step.kind) {
		case 'read': {
			const {row, isAfter} = step;
			return {
				headline: guided.read(nameOf(row)),
				why: isAfter ? test.readAfter : test.readBefore,
				how: [guided.softly],
				prompt: guided.onlyPlucked(nameOf(row)),
				example: '-12',
				string: row.string,
				practice: {kind: 'pluck', string: row.string, how: 'open'},
				progress,
			};
		}
		case 'measure':
			return measurePlateTask(bench, {
				headline: test.measure[step.isAfter ? 'after' : 'before'],
				why: test.measureWhy,
				progress,
			});
		case 'claw': {
			const deeds: readonly Deed[] = [{type: 'ClawTurned', trebleTurns: step.turns, bassTurns: step.turns}];
			const {claw} = test;
			return {
				headline: claw.headline(formatTurns(step.turns)),
				why: claw.why,
				how: claw.how,
				prompt: claw.prompt,
				example: formatTurns(step.turns),
				act: {kind: 'claw', turns: step.turns},
				cautions: [stringCaution],
				enter: {label: claw.enter, deeds},
				practice: {kind: 'deeds', deeds},
				progress,
			};
		}
	}
}
