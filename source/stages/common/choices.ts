import type {Deed} from '../../session/facts.ts';
import type {Answer, Task} from '../stage.ts';
import {choice as words} from './words.ts';

/** One of a few ways to go on; typed as its number. */
export interface Choice<Value extends string = string> {
	readonly value: Value;
	readonly label: string;
	/** What it costs or gains, one line. */
	readonly note?: string;
}

/** A question with numbered answers, all of them on the screen at any size: the table rests. Enter takes `usual`. */
export function choiceTask<Value extends string>(
	name: string,
	choices: readonly Choice<Value>[],
	usual: NoInfer<Value>,
	said: Pick<Task, 'headline' | 'why' | 'progress'> & Pick<Partial<Task>, 'cautions'>,
): Task {
	const deeds = [chosen(name, usual)];
	return {
		...said,
		tableRests: true,
		how: choices.map(({label, note}, index) => `${index + 1} ${label}${note ? `: ${note}` : ''}`),
		prompt: words.prompt,
		example: '1',
		enter: {label: choices.find(({value}) => value === usual)!.label, deeds},
		practice: {kind: 'deeds', deeds},
	};
}

export function answerChoice(text: string, name: string, choices: readonly Choice[]): Answer {
	const found = choices[Number(text.trim()) - 1];
	if (!/^\d+$/.test(text.trim()) || !found)
		return {kind: 'refused', said: words.notAChoice(text.trim(), choices.length)};
	return {kind: 'deeds', deeds: [chosen(name, found.value)]};
}

function chosen(choice: string, value: string): Deed {
	return {type: 'WayChosen', choice, value};
}
