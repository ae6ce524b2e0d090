import type {StringNumber} from '../music/string-number.ts';
import type {Deed} from './facts.ts';

/** What simulated hands do when the person asks them to act on the task. */
export type PracticeMove =
	| {
			readonly kind: 'pluck';
			readonly string: StringNumber;
			readonly how: 'open' | 'harmonic' | 'fretted';
			readonly fret?: number;
	  }
	| {readonly kind: 'turn'; readonly string: StringNumber; readonly toCents: number; readonly by: 'peg' | 'fine-tuner'}
	/** Both claw screws until a string shows so many cents; `turns` of them are expected. */
	| {readonly kind: 'claw-until'; readonly string: StringNumber; readonly toCents: number; readonly turns: number}
	| {readonly kind: 'measure-plate'}
	/** Knife edges to the spring hooks. */
	| {readonly kind: 'measure-spring-arm'}
	/** Coil body of a claw spring, as it stands and closed up. */
	| {readonly kind: 'measure-springs'}
	| {readonly kind: 'measure-saddle'; readonly string: StringNumber}
	| {readonly kind: 'deeds'; readonly deeds: readonly Deed[]};
