import type {ComponentType} from 'react';
import type {StringNumber} from '../music/string-number.ts';
import type {Act, Bench, Forecast} from '../session/bench.ts';
import type {Deed} from '../session/facts.ts';
import type {PracticeMove} from '../session/practice-move.ts';

/**
 * A stage is data and plain functions; looks are optional. The same stage is
 * walked by the full-screen wizard and, line by line, by any other front end,
 * so nothing here may depend on a terminal.
 */
export interface Stage {
	readonly id: string;
	readonly title: string;
	isNeeded(bench: Bench): boolean;
	/** All that this stage must reach is reached; the wizard goes on by itself or offers to. */
	isDone(bench: Bench): boolean;
	/** The one thing to do next. */
	task(bench: Bench): Task;
	/** What the person typed on the entry line, Enter pressed. */
	answer(text: string, task: Task, bench: Bench, extra?: {readonly meant?: boolean}): Answer;
	/** One-key actions that work now, beyond those that work everywhere. */
	keys(bench: Bench, task: Task): readonly KeyAction[];
	/** Extra pictures for this stage where there is room; optional. */
	readonly Panel?: ComponentType<{
		readonly bench: Bench;
		readonly task: Task;
		readonly width: number;
		readonly height: number;
	}>;
}

export interface Task {
	/** One sentence, imperative, with the numbers: "Turn string 5 (A2) up to +23 cents." */
	readonly headline: string;
	/** One line a beginner understands. */
	readonly why: string;
	/** How to do it, short lines, most needed first. */
	readonly how?: readonly string[];
	/** True where the table of strings has nothing to say (intake, lists to look through): its rows go to `how`. */
	readonly tableRests?: boolean;
	/** Label before the entry line: "tuner shows", "tail height". */
	readonly prompt: string;
	/** Greyed example inside the empty entry line. */
	readonly example?: string;
	/** True where a name or other words are asked for: then every letter goes on the entry line, and one-letter keys rest. */
	readonly freeText?: boolean;
	/** The string that this is about, if one. */
	readonly string?: StringNumber;
	/** The act about to be done: its forecast is shown before. */
	readonly act?: Act;
	/** Cautions that apply here; shown once and where they apply. */
	readonly cautions?: readonly string[];
	/** What Enter on an empty line does, said in words; none if Enter alone does nothing. */
	readonly enter?: {readonly label: string; readonly deeds: readonly Deed[] | 'practice'};
	/** For the practice guitar: what the simulated hands would do for this task. */
	readonly practice?: PracticeMove;
	/** How far this stage is, 0 to 1. */
	readonly progress: number;
}

export type Answer =
	/** Facts to store, in order, as one entry. */
	| {readonly kind: 'deeds'; readonly deeds: readonly Deed[]}
	/** Not possible: what was read, what is allowed, an example. The draft stays on the line. */
	| {readonly kind: 'refused'; readonly said: string}
	/** Possible but surprising: Enter again (or `!`) says "I meant it". The draft stays on the line. */
	| {readonly kind: 'question'; readonly said: string; readonly deedsIfMeant: readonly Deed[]};

/** Keys that mean the same in every stage and belong to the wizard: pluck, take back, put back, outlook, story, note, list, leave, yes, listen, now. */
export const wizardKeys = [' ', 'p', 'u', 'r', 'o', 's', 'n', 'l', 'q', 'y', '?', '<', '!', '*', '='] as const;

export interface KeyAction {
	/**
	 * A single letter (acts on an empty entry line only) or a named key such as
	 * `f2`, but not `tab`. Not a to h, which begin notes, and none of `wizardKeys`.
	 */
	readonly key: string;
	readonly label: string;
	readonly does:
		| {readonly kind: 'deeds'; readonly deeds: readonly Deed[]; readonly ask?: string}
		/** Shell-level: handled by the frame, e.g. `select-string`, `outlook`, `back`. */
		| {readonly kind: 'shell'; readonly name: string};
}

export type {Act, Bench, Forecast, PracticeMove};
