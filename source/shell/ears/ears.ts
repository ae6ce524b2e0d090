import type {HeardTone} from '../../listening/estimate-tone.ts';
import type {HeardPluck} from '../../listening/listening.ts';
import type {ListeningView} from '../../listening/listening-view.ts';
import type {Trouble} from '../../listening/trouble.ts';

/** What reaches the wizard from its ears, beside keys and pastes. After `trouble` and `end` nothing more comes. */
export type EarEvent =
	/** Sound comes now, from here: a program, a file. */
	| {readonly kind: 'open'; readonly from: string}
	/** What may be shown at this moment. */
	| {readonly kind: 'view'; readonly view: ListeningView}
	| {readonly kind: 'pluck'; readonly pluck: HeardPluck}
	/** What sounds at the moment it was asked for, if anything like a string does. */
	| {readonly kind: 'now'; readonly tone?: HeardTone}
	| {readonly kind: 'trouble'; readonly trouble: Trouble}
	| {readonly kind: 'end'; readonly from: string};

/** Something to listen with; opened only when asked for. */
export interface Ears {
	/** Asked for on the command line: a set-up begins listening. */
	readonly startsOn: boolean;
	/** A recording or a pipe: the sound is over some day. Live sound goes on for ever. */
	readonly hasEnd: boolean;
	/** @param tell Never called before `open` has returned. */
	open(tell: (event: EarEvent) => void): OpenEars;
}

export interface OpenEars {
	attend(attention: Attention): void;
	/** Answers with a `now` event. */
	now(): void;
	/** Ends it at once; nothing more is told. */
	stop(): void;
}

/** What whoever listens is about. */
export interface Attention {
	/** Where strings are believed to sound: a help among others that ring. */
	readonly believedHz: readonly number[];
	/** A pitch is wanted now. A recording is read on only while one is; live sound goes by. */
	readonly isWanted: boolean;
}
