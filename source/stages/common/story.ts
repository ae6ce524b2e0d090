import type {StringNumber} from '../../music/string-number.ts';
import type {Deed, How, Story} from '../../session/facts.ts';

type Read = Extract<Deed, {type: 'PitchRead'}>;

/** Place in the story of the last fact of a type (about one string, if given), or -1. */
export function lastOf(story: Story, type: Deed['type'], string?: StringNumber): number {
	return story.findLastIndex(
		fact => fact.type === type && (string === undefined || ('string' in fact && fact.string === string)),
	);
}

/** How the plate stands was looked at since the work was begun: what was measured before the nut was opened is how it came in. */
export function plateSeenAt(story: Story): number {
	const measured = lastOf(story, 'PlateMeasured');
	return measured > story.findIndex(({type}) => type === 'NutOpened') ? measured : -1;
}

/** Readings of one string sounded one way, made after place `after`. */
export function readingsAfter(story: Story, string: StringNumber, how: How, after: number): readonly Read[] {
	return story.slice(after + 1).filter((fact): fact is Read & Story[number] => {
		return fact.type === 'PitchRead' && fact.string === string && fact.how === how && isTwelfth(fact);
	});
}

/** True if the string was read that way after place `after`. */
export function isReadAfter(story: Story, string: StringNumber, how: How, after: number): boolean {
	return readingsAfter(story, string, how, after).length > 0;
}

/** Value of the last choice of that name made after place `after`, if any. */
export function choiceAfter(story: Story, choice: string, after: number): string | undefined {
	const found = story.findLast((fact, index) => index > after && fact.type === 'WayChosen' && fact.choice === choice);
	return found?.type === 'WayChosen' ? found.value : undefined;
}

/** Place where a stage was last reopened, or -1: what was chosen on the way through it before no longer leads. */
export function reopenedAt(story: Story, stage: string): number {
	return story.findLastIndex(fact => fact.type === 'StageReopened' && fact.stage === stage);
}

function isTwelfth({how, fret}: Read): boolean {
	return how !== 'fretted' || fret === undefined || fret === 12;
}
