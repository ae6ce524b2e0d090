import type {Bench, ClawByEar} from '../../session/bench.ts';
import {clawUntil} from '../../session/claw-until.ts';
import type {Deed} from '../../session/facts.ts';
import {formatCents} from '../../units/cents.ts';
import {formatTurns} from '../../units/turns.ts';
import type {Answer, KeyAction, Task} from '../stage.ts';
import {answerPitch} from './pitch-answer.ts';
import {nameOf, rowOf} from './rows.ts';
import {choiceAfter} from './story.ts';
import {clawByEar as words, stringCaution} from './words.ts';

/** Name of the choice that leaves the rest to the pegs. */
export const clawByEarChoice = 'claw by ear';

/** The turn of the claw by ear that is due, if it was not refused since place `since` of the story. */
export function clawDueSince(since: number, bench: Bench): ClawByEar | undefined {
	// Behind clamped blocks only fine tuners turn; where turns of the claw are not enough, balancing says what is.
	if (bench.nut === 'locked' || bench.plate.springs.kind !== 'turns-will-do') return undefined;
	return choiceAfter(bench.story, clawByEarChoice, since) === undefined ? bench.clawByEar() : undefined;
}

export function clawByEarTask(bench: Bench, due: ClawByEar, why: string, progress: number): Task {
	const name = nameOf(rowOf(bench, due.string));
	const way = due.turns >= 0 ? words.tighter : words.looser;
	return {
		headline: words.headline(way, name, formatCents(due.toCents)),
		why,
		how: words.how(formatTurns(due.turns), Math.abs(due.turns) < 1 / 16),
		prompt: words.prompt(name),
		example: '0',
		string: due.string,
		act: {kind: 'claw', turns: due.turns},
		cautions: [stringCaution],
		practice: {kind: 'claw-until', string: due.string, toCents: due.toCents, turns: due.turns},
		progress,
	};
}

/** The fact of a claw turned by ear. */
export function clawDeed({string, toCents, turns, from}: ClawByEar): Deed {
	return clawUntil({string, cents: toCents, turns, from});
}

/** True where the claw is turned by ear. */
export function isClawByEarTask({practice}: Task): boolean {
	return practice?.kind === 'claw-until';
}

/** What the tuner shows after the claw was turned by ear; another string is a plain reading. */
export function answerClawByEar(text: string, due: ClawByEar, bench: Bench, meant?: boolean): Answer {
	const answer = answerPitch(text, {string: due.string, how: 'open', toCents: due.toCents}, bench, meant);
	const byClaw = (deeds: readonly Deed[]): readonly Deed[] =>
		deeds.map(deed => (deed.type === 'PegTurned' && deed.string === due.string ? clawDeed(due) : deed));
	if (answer.kind === 'deeds') return {...answer, deeds: byClaw(answer.deeds)};
	if (answer.kind !== 'question') return answer;
	return {...answer, deedsIfMeant: byClaw(answer.deedsIfMeant)};
}

export const pegsInsteadKey: KeyAction = {
	key: 'j',
	label: words.pegs,
	does: {kind: 'deeds', deeds: [{type: 'WayChosen', choice: clawByEarChoice, value: 'pegs'}]},
};
