import type {Learned} from '../estimation/memory.ts';
import type {Deed} from '../session/facts.ts';
import type {Journal} from '../session/journal.ts';
import type {ListeningView} from '../listening/listening-view.ts';
import type {TroubleCode} from '../listening/trouble.ts';
import type {SetupSummary} from '../storage/store.ts';
import type {Entry} from '../terminal/entry.ts';
import type {Meaning} from '../terminal/theme.ts';
import type {HeardChoice} from './ears/heard-question.ts';

/** Where the wizard is. Facts live in the journal; everything else here is lost on leaving without harm. */
export type Wizard = Opening | Sitting | Left;

export interface Message {
	readonly as: Meaning;
	readonly text: string;
}

/** The first screen: what to do, and every set-up kept. */
export interface Opening {
	readonly screen: 'opening';
	readonly kept: readonly SetupSummary[];
	/** Place in `openingItems`. */
	readonly at: number;
	readonly message?: Message;
	readonly asking?: {readonly kind: 'delete' | 'held'; readonly summary: SetupSummary};
	/** The guitar being renamed. */
	readonly naming?: {readonly summary: SetupSummary; readonly entry: Entry};
	readonly isHelpOpen?: boolean;
}

export const overlays = ['help', 'outlook', 'story', 'sheet'] as const;
export type Overlay = (typeof overlays)[number];

/** One set-up being worked on. */
export interface Sitting {
	readonly screen: 'sitting';
	readonly id: string;
	readonly guitarId: string;
	readonly journal: Journal;
	/** What earlier set-ups of this guitar taught. */
	readonly learned?: Learned;
	/** True once something of it is on the disk. */
	readonly isStored: boolean;
	/** Open in another program as well: nothing may be entered here. */
	readonly isLookOnly: boolean;
	readonly entry: Entry;
	/** What the entry line is for. */
	readonly writing: 'answer' | 'note';
	readonly overlay?: Overlay;
	readonly scroll: number;
	readonly message?: Message;
	/** A question that waits. */
	readonly asking?: Asking;
	readonly cautionsRead: readonly string[];
	/** Present while the program listens. */
	readonly ear?: Ear;
}

/** Of an answer (Enter again or `!` means it), of a key (`y`), or of what was heard (Enter or `!` takes the choice shown). */
export type Asking =
	| {readonly by: 'answer' | 'key'; readonly deeds: readonly Deed[]}
	| {
			readonly by: 'ear';
			/** Of the choice shown. */
			readonly deeds: readonly Deed[];
			readonly choices: readonly HeardChoice[];
			readonly at: number;
			readonly hz: number;
			readonly isSurprise: boolean;
			readonly isOpenInstead: boolean;
	  };

/** Listening, as far as a screen or a key needs it. */
export interface Ear {
	/** Where sound comes from; undefined until it does. */
	readonly from?: string;
	readonly view?: ListeningView;
	/** What was heard last, in words, and how often something was. */
	readonly note?: string;
	readonly heard?: number;
	/** How often "now" was asked for. */
	readonly nows: number;
	/** Troubles told already. */
	readonly said?: readonly TroubleCode[];
}

/** The wizard is over; what is said goes under the shell's prompt. */
export interface Left {
	readonly screen: 'left';
	readonly said: readonly string[];
	/** Whether the set-up that was left is walked to its end; undefined if none was open. */
	readonly isFinished?: boolean;
}

/** Without what belongs to the entry before: message, question, draft. */
export function settled(sitting: Sitting): Sitting {
	const {message: _, asking: __, ...rest} = sitting;
	return rest;
}

/** How a run of the wizard ended. */
export type Ending =
	/** `inputEnded` if nobody asked to leave: line by line, the input was used up. */
	| {readonly kind: 'left'; readonly left: Left; readonly inputEnded?: boolean}
	| {readonly kind: 'fault'; readonly left: Left; readonly error: Error};

export function faultEnding(left: Left, error: unknown): Ending {
	return {kind: 'fault', left, error: error instanceof Error ? error : new Error(String(error))};
}
