import type {StringNumber} from '../music/string-number.ts';

/**
 * What a person says about the instrument at intake, in the words and units
 * of the bench. Nothing here is checked; `instrument.ts` turns it into
 * physics. All lengths are millimetres whatever unit was typed; gauges are
 * thousandths of an inch because string sets are sold that way.
 */
export interface InstrumentSheet {
	readonly name: string;
	/** Thinnest first; its length is the number of strings, 6, 7 or 8. */
	readonly strings: readonly StringSheet[];
	readonly scaleLengthMm: number;
	/** Reference A, 400 to 480 Hz. */
	readonly referenceAHz: number;
	/** Springs fitted, 1 to 6. */
	readonly springs: number;
	/** Advance of a claw screw per turn; entered or measured, default 1.7 (common practice, no source). */
	readonly clawScrewPitchMm: number;
	/** Turns that the claw screws could still go at intake, [looser, tighter], before the thread or the travel ends; the usual when not counted. */
	readonly clawTurnsLeft?: readonly [looser: number, tighter: number];
	/** Knife edge down to where the springs hook into the block, if measured. */
	readonly springArmMm?: number;
	/** Coil body of a claw spring, first turn to last, as the guitar came in with its strings on, and the same coils closed up; if measured. */
	readonly springLengthsMm?: readonly [now: number, closed: number];
	/** Height the tail edge is wanted above level; 0 is level, positive is tail up. */
	readonly plateWishMm: number;
	/** Distance from knife edge to the tail edge, where heights are measured. */
	readonly tailArmMm: number;
	readonly openToleranceCents: number;
	readonly frettedToleranceCents: number;
	/** String height over the 12th fret (action), all strings alike unless a string says otherwise. */
	readonly actionMm: number;
	/** String height over the first fret's plane at the nut. */
	readonly nutHeightMm: number;
	readonly units: {readonly length: 'mm' | 'in'; readonly force: 'N' | 'lbf' | 'kgf'};
	/** Why the guitar is here; decides which stages are needed. */
	readonly job: Job;
	/** Strings and tuning that were on before, for a change of set or tuning. */
	readonly before?: readonly StringSheet[];
	/** Present when the instrument is the practice guitar: the seed that its hidden truth is drawn from. */
	readonly practiceSeed?: number;
}

/** `whole` everything; `restring` new strings of the same kind; `change` new gauges or tuning; `intonation` saddles only. */
export const jobs = ['whole', 'restring', 'change', 'intonation'] as const;
export type Job = (typeof jobs)[number];

export interface StringSheet {
	/** Scientific pitch name of the target, `E4`, `F#2`, `Bb3`. */
	readonly note: string;
	/** Offset wanted from equal temperament, cents; default 0. */
	readonly offsetCents?: number;
	/** Outer gauge, thousandths of an inch. */
	readonly gaugeThou: number;
	readonly wound: boolean;
	/** Core of a wound string, thousandths of an inch, if known. */
	readonly coreThou?: number;
	/** Wanted fretted-minus-harmonic at the 12th fret, cents; default 0. */
	readonly frettedOffsetCents?: number;
	/** Action of this string alone, if it differs. */
	readonly actionMm?: number;
	/** Travel of this saddle, mm behind the scale line: [forward end, back end]; default covers both holes. */
	readonly saddleRangeMm?: readonly [number, number];
	/** Saddle position at intake, mm behind the scale line (positive = longer). */
	readonly saddleMm?: number;
}

export type ByString<T> = {readonly [S in StringNumber]?: T};

/** How far the springs stood stretched, mm. */
export function stretchMm([now, closed]: NonNullable<InstrumentSheet['springLengthsMm']>): number {
	return now - closed;
}

/** What of a sheet still holds when the guitar comes in again: not how far its springs stood stretched. */
export function sheetForNextTime({springLengthsMm: _, ...lasting}: InstrumentSheet): InstrumentSheet {
	return lasting;
}
