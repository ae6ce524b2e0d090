import type {HeardTone} from '../../listening/estimate-tone.ts';
import type {HeardPluck} from '../../listening/listening.ts';
import type {ListeningView} from '../../listening/listening-view.ts';

/** What the listening desk is asked to do, one after the other. */
export type DeskTask =
	| {readonly kind: 'start'; readonly sampleRateHz: number}
	| {readonly kind: 'block'; readonly samples: Float32Array; readonly believedHz: readonly number[]}
	| {readonly kind: 'lost'}
	| {readonly kind: 'now'; readonly believedHz: readonly number[]}
	/** The sound is over. */
	| {readonly kind: 'end'; readonly believedHz: readonly number[]};

export type DeskReply =
	/** To each `block` and to `end`. */
	| {readonly kind: 'heard'; readonly plucks: readonly HeardPluck[]; readonly view: ListeningView}
	| {readonly kind: 'now'; readonly tone?: HeardTone};

/** Where tasks go; a look at a pluck takes up to some tenths of a second, so the real desk stands in a thread of its own. */
export interface Desk {
	post(task: DeskTask): void;
	stop(): void;
}

/** Replies come after `post` has returned. */
export type OpenDesk = (reply: (reply: DeskReply) => void) => Desk;
