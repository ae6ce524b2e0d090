import type {ClawBySide} from '../planning/claw-by-side.ts';
import type {PlateVerdict} from '../planning/plate-verdict.ts';
import type {SpringAdvice} from '../planning/spring-advice.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {StringNumber} from '../music/string-number.ts';
import type {BenchDiagnosis} from './diagnosis-of.ts';
import type {Fact, How, Story} from './facts.ts';
import type {RecheckNow} from './records/recheck-now.ts';
import type {SaddleRow} from './saddle-row.ts';
import type {ForecastCompared} from './set-change-compared.ts';
import type {ChangeForecast} from './set-change.ts';
import type {Locking} from './locking.ts';
import type {InstrumentSheet} from './sheet.ts';

/**
 * Everything a screen may show about a set-up at one moment, derived from its
 * facts by `benchOf`. Screens and stages read this and do no arithmetic.
 * Cents: positive = sharp. Estimates are mean and one standard deviation.
 */
export interface Bench {
	readonly story: Story;
	readonly sheet: InstrumentSheet;
	readonly nut: 'open' | 'locked';
	/** True while a support is under the bridge. */
	readonly blocked: boolean;
	readonly springs: number;
	readonly strings: readonly StringRow[];
	readonly plate: PlateRow;
	/** How near a string must come now to count as in tune, cents: the sheet's wish, or what is worth the while before the clamps. */
	readonly toleranceCents: number;
	/** What to do next with the pegs or fine tuners, all strings considered. */
	readonly tuning: TuningAdvice;
	/** Items ticked, ways chosen, stages passed: see facts of those names. */
	readonly ticked: Readonly<Record<string, boolean>>;
	readonly ways: Readonly<Record<string, string>>;
	readonly passedStages: readonly string[];
	/** Set when a stage was reopened and not passed again. */
	readonly reopenedStage?: string;
	/** Facts since which the story matters for re-plucks: index of the last adjustment, or -1. */
	readonly lastAdjustment: number;
	/** Adjustments (pegs, fine tuners, claw, saddles) so far. */
	readonly adjustments: number;
	/** What the change of set or tuning was foreseen to do before anything was undone; undefined when nothing is changed. */
	readonly change?: ChangeForecast;
	/** The same beside what came true, once the plate was measured with the new strings on; undefined before that. */
	changeCompared(): ForecastCompared | undefined;
	/** A string broken or taken off: the plate and claw with the others at pitch, and as they will be once a like one is on. */
	without(string: StringNumber): Lost;
	/** What the readings since the last adjustment say about the guitar; worked out when asked. Undefined when nothing was read since, or on a support. */
	diagnosis(): BenchDiagnosis | undefined;
	/** The re-check under way or done last: yesterday's expectations, and what today's readings tell; worked out when asked. Undefined when no day was let pass. */
	recheck(): RecheckNow | undefined;
	/** The turn of both claw screws by ear that would spare turns of the pegs; worked out when asked. Undefined where the pegs do it as well. */
	clawByEar(): ClawByEar | undefined;
	/** The turn of both claw screws that frees a bridge held by a support; worked out when asked. Undefined while it floats or a string is not known. */
	clawLift(): ClawByEar | undefined;
	/** What the nut's clamps do and what the fine tuners can still do; worked out when asked. */
	locking(): Locking;
	/** What would happen if... ; see `Act`. */
	forecast(act: Act): Forecast;
	/**
	 * What a reading of this string would be expected to show now, cents from its target sounded that way, tuner's and finger's
	 * noise included; undefined if slack, off or never known, and at a fret (12 unless given) until something was read fretted.
	 */
	expectReading(string: StringNumber, how: How, fret?: number): Estimate | undefined;
}

/** Both claw screws turned alike until a string shows so many cents. */
export interface ClawByEar {
	readonly string: StringNumber;
	readonly toCents: number;
	/** About so many, positive tightens. */
	readonly turns: number;
	/** What a support still keeps the tail from: until the plate comes off it. */
	readonly from?: 'rising' | 'falling';
}

export type StringState = 'off' | 'slack' | 'free' | 'blocked' | 'locked' | 'settled' | 'needs a look';

export interface StringRow {
	readonly string: StringNumber;
	readonly note: string;
	readonly targetHz: number;
	readonly gaugeThou: number;
	readonly wound: boolean;
	readonly lastReading?: {readonly cents: number; readonly how: How; readonly fact: Fact & {type: 'PitchRead'}};
	/** Adjustments made anywhere since that reading: how old it is. */
	readonly touchedSince: number;
	/** Where it is believed to stand now; undefined when slack or off, or never read. */
	readonly now?: Estimate;
	/** Where the tuner should stand if this string is the next one turned, so that it lands when all are done. */
	readonly aim?: Estimate;
	/** Extra movement still expected from the strings not yet done, cents; aim = 0 - this. */
	readonly tensionN: number;
	readonly targetTensionN: number;
	/** Cents from pitch to where the plate stops: pull-up positive, dive negative and undefined when it hangs loose before; undefined for a string that is off. */
	readonly arm?: {readonly pullUpCents: number; readonly diveCents: number | undefined};
	/** Tension at pitch of the string that was on before (`sheet.before`), for a change of set or tuning. */
	readonly tensionBeforeN?: number;
	/** Tension now over minimum breaking load of the core, 0 to 1. */
	readonly strengthShare: number;
	/** Saddle, mm behind the scale line; undefined until measured or moved. */
	readonly saddleMm?: number;
	/** Fretted 12th minus harmonic, cents; undefined until both are read. */
	readonly intonationCents?: Estimate;
	/** Saddle move that would bring it to the wish, mm, positive = back. */
	readonly saddleMoveMm?: Estimate;
	/** What to do about the saddle: reach, expected result, suspicions. */
	readonly saddle?: SaddleRow;
	readonly state: StringState;
}

export interface PlateRow {
	/** Tail height above level believed now, mm at the sheet's tail arm. */
	readonly tailMm: Estimate;
	/** Same once every string is at pitch with claw and springs as they are. */
	readonly tailAtPitchMm: Estimate;
	/** Turns on both claw screws that bring the wish at pitch; positive tightens. */
	readonly clawTurns: Estimate;
	/** Claw turns made since the start, mean of both screws. */
	readonly clawTurnsMade: number;
	readonly measured?: {readonly tailMm: number; readonly touchedSince: number};
	/** Pull of one spring at pitch, N. */
	readonly springForceN: number;
	/** The same turns for each screw, in eighths: unequal when both sides were measured and the plate is twisted. */
	readonly bySide: ClawBySide;
	/** Whether turns are enough, or what else: springs added, removed, hooked elsewhere, exchanged. */
	readonly springs: SpringAdvice;
	/** Whether it stands as wished, as far as measuring tells. */
	readonly verdict: PlateVerdict;
	/** A turn of the claw now makes it surer that the plate ends as wished. */
	readonly isTurnWorth: boolean;
	/** A bold turn is wanted on a bridge whose answer to its claw is a guess: the length from edge to spring hooks would make it surer. */
	readonly isArmWanted: boolean;
	/** The claw was turned, not surely right, and all strings are roughly at pitch: a look at the plate now spares a pass later. */
	readonly isLookDue: boolean;
	/** Measured once since anything moved, and a bold turn follows or came before, or the turn would be surer: a second measure steadies what it teaches. */
	readonly isSecondLookDue: boolean;
	/** While a support is in: turns to make before it is taken out, for the plate to stand as wished the moment it is. */
	readonly turnsBeforeRelease?: Estimate;
}

/** See `Bench.without`. */
export interface Lost {
	readonly clawTurns: Estimate;
	readonly tailAtPitchMm: Estimate;
	readonly replaced: {readonly clawTurns: Estimate; readonly tailAtPitchMm: Estimate};
}

export type TuningAdvice =
	| {readonly kind: 'read'; readonly string: StringNumber; readonly why: TuningReason}
	| {
			readonly kind: 'turn';
			readonly string: StringNumber;
			/** Where the tuner should stand when letting go, cents of target. */
			readonly aimCents: Estimate;
			/** True when the true aim is held back, for the string's strength or because it would hang loose, and another turn will follow. */
			readonly gentle: boolean;
			readonly why: TuningReason;
	  }
	| {
			readonly kind: 'done';
			readonly worst: {readonly string: StringNumber; readonly error: Estimate};
			readonly probability: number;
	  };

/** Codes; the words are the stage's. */
export type TuningReason =
	| 'never-read'
	| 'uncertain'
	| 'teaches-most'
	| 'prove-result'
	| 'far-off'
	| 'next-in-plan'
	| 'strength'
	| 'slack'
	| 'settling'
	| 'surprise';

/** Something a hand may do next. */
export type Act =
	| {readonly kind: 'turn'; readonly string: StringNumber; readonly toCents: number}
	| {readonly kind: 'slacken'; readonly strings: readonly StringNumber[]}
	| {readonly kind: 'remove'; readonly string: StringNumber}
	| {readonly kind: 'claw'; readonly turns: number}
	| {readonly kind: 'unsupport'}
	| {readonly kind: 'clamp'};

export interface Forecast {
	/** Movement of every sounding string through the bridge, cents; empty when blocked. */
	readonly moves: readonly {readonly string: StringNumber; readonly cents: Estimate}[];
	/** Change of tail height, mm. */
	readonly tipMm: Estimate;
	/** True when the others return once the touched string is back where it was. */
	readonly comesBack: boolean;
	/** True when some move exceeds the open tolerance. */
	readonly matters: boolean;
	/** Set when a string would come near its strength: share of minimum breaking load. */
	readonly strain?: {readonly string: StringNumber; readonly share: number};
}

/** Whole plan ahead: order and aims, and what moves what. */
export interface Outlook {
	readonly order: readonly {readonly string: StringNumber; readonly aimCents: Estimate}[];
	/** Error of every string as believed after each adjustment so far, cents, thinnest first; undefined while slack or never heard. */
	readonly errorsAfterStep: readonly (readonly (number | undefined)[])[];
	/** Row = string touched, column = string moved, cents moved per +10 cents on the touched one (thinnest first). Worked out when asked for. */
	readonly movesPerTenCents: () => readonly (readonly Estimate[])[];
}
