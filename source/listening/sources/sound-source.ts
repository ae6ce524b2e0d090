import type {Trouble} from '../trouble.ts';

/** What a source of sound tells, in order. After `end` or a fatal trouble nothing more comes. */
export type SoundEvent =
	/** Sound comes, this many samples a second, from here: a program, a file. */
	| {readonly kind: 'open'; readonly sampleRateHz: number; readonly from: string}
	| {readonly kind: 'samples'; readonly samples: Float32Array}
	/** The source says that it lost samples. */
	| {readonly kind: 'lost'}
	| {readonly kind: 'trouble'; readonly trouble: Trouble}
	| {readonly kind: 'end'};

export type SoundListener = (event: SoundEvent) => void;

/** An open source; `stop` ends it at once and tells nothing more. */
export interface SoundSource {
	stop(): void;
	/** Sources that can wait: nothing is read until `goOn`. */
	hold?(): void;
	goOn?(): void;
}
