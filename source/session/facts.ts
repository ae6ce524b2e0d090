import type {StringNumber} from '../music/string-number.ts';
import type {InstrumentSheet} from './sheet.ts';

/**
 * A set-up is a list of facts; everything else is derived from it. Facts are
 * past tense, hold what was entered, and are never changed: undo withdraws
 * the facts of the last entry. Signs: cents positive = sharp of the string's
 * target; turns positive = tighten (more spring pull); saddle travel positive
 * = back, away from the neck, longer.
 */
export type Fact = Stamp & Deed;

export interface Stamp {
	/** Milliseconds since 1970, from the clock passed in. */
	readonly at: number;
	/** Facts of one entry share this number; undo takes one entry back. */
	readonly entry: number;
}

/** How a pitch was sounded. `fretted` says where in `fret`; `harmonic` is the 12th-fret harmonic, given as cents of the open target + 1 octave. */
export type How = 'open' | 'harmonic' | 'fretted';

/** What the program's own ears say of a pitch beside its cents; see `listening/`. */
export interface HeardPitch {
	/** Of the fit, one standard deviation. */
	readonly sdCents: number;
	/** Stiffness coefficient B of the open string, its mode n at n f₀ √(1 + B n²); mean and one standard deviation. */
	readonly stiffness?: {readonly mean: number; readonly sd: number};
	/** What a tuner that looks for the sound's period would have shown, cents as in `cents`; absent where it would have been lost. */
	readonly tunerCents?: number;
}

export type Deed =
	// Intake. Filled again when anything is edited later.
	| {readonly type: 'SheetFilled'; readonly sheet: InstrumentSheet}
	// The wizard's own steps.
	| {readonly type: 'StagePassed'; readonly stage: string}
	| {readonly type: 'StageReopened'; readonly stage: string}
	| {readonly type: 'ItemTicked'; readonly item: string; readonly done: boolean}
	| {readonly type: 'WayChosen'; readonly choice: string; readonly value: string}
	| {readonly type: 'NoteWritten'; readonly text: string}
	// Nut, support, springs, claw.
	| {readonly type: 'NutOpened'}
	| {readonly type: 'NutClamped'}
	| {readonly type: 'FineTunersCentred'}
	/** Support under the bridge: while it is in, strings do not affect each other. */
	/** `tailMm` where the tail was brought to that height above level first (positive = high); as it stood when absent. */
	| {readonly type: 'SupportPlaced'; readonly tailMm?: number}
	| {readonly type: 'SupportRemoved'}
	/** `until` where both were turned alike until that string showed those cents: then the turns are only about so many. */
	| {
			readonly type: 'ClawTurned';
			readonly trebleTurns: number;
			readonly bassTurns: number;
			readonly until?: {
				readonly string: StringNumber;
				readonly cents: number;
				/** With a support in that kept the tail only from this: until the plate came off it. */
				readonly from?: 'rising' | 'falling';
			};
	  }
	| {readonly type: 'SpringsChanged'; readonly springs: number}
	/** Height of the tail edge above level, mm, at the sheet's tail arm (positive = tail high): the middle, or the mean of both sides if they were measured apart. */
	| {
			readonly type: 'PlateMeasured';
			readonly tailMm: number;
			readonly sidesMm?: {readonly treble: number; readonly bass: number};
			readonly entered: string;
	  }
	// Strings.
	| {readonly type: 'StringRemoved'; readonly string: StringNumber}
	| {readonly type: 'StringFitted'; readonly string: StringNumber}
	| {readonly type: 'StringSlackened'; readonly string: StringNumber}
	| {readonly type: 'StringStretched'; readonly string: StringNumber}
	/** Peg turned until the tuner stood near `untilCents` (when an aim was being followed). */
	| {readonly type: 'PegTurned'; readonly string: StringNumber; readonly untilCents?: number}
	| {readonly type: 'FineTunerTurned'; readonly string: StringNumber; readonly untilCents?: number}
	| {
			readonly type: 'PitchRead';
			readonly string: StringNumber;
			readonly how: How;
			readonly fret?: number;
			/** Against the target sounded that way (fretted 12th: against target + 1 octave). */
			readonly cents: number;
			readonly entered: string;
			/** The person insisted after a question. */
			readonly meant?: boolean;
			/** Set when it was heard by the program; absent when a person read it off a tuner. */
			readonly heard?: HeardPitch;
	  }
	/** A surprise explained: this string slipped, so its earlier place no longer holds. */
	| {readonly type: 'StringSlipped'; readonly string: StringNumber}
	| {
			readonly type: 'SaddleMoved';
			readonly string: StringNumber;
			readonly travelMm: number;
			readonly hole?: 'front' | 'back';
	  }
	| {readonly type: 'SaddleMeasured'; readonly string: StringNumber; readonly positionMm: number}
	/** Left alone for a day or so: what is read next is another day's. */
	| {readonly type: 'DayPassed'}
	// Proof.
	| {readonly type: 'ArmMoved'; readonly motion: 'dive' | 'pull-up' | 'bend'};

/** Of one set-up, in order of entry. */
export type Story = readonly Fact[];
