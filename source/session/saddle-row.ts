import type {FretReading, PatternCause, SaddlePattern} from '../estimation/saddle-pattern.ts';
import type {Plucks} from '../estimation/saddle-plucks.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {SaddleCompromise} from '../planning/saddle-compromise.ts';
import type {SaddlePlan} from '../planning/saddle-plan.ts';
import type {EarsTold} from './heard-told.ts';

export type {PatternCause, SaddlePattern};

/** What a screen may show of one string's saddle: the plan, and what it rests on. */
export interface SaddleRow extends SaddlePlan {
	/** Plucks at this place, averaged. */
	readonly plucks?: {readonly harmonic: Plucks; readonly fretted: Plucks};
	/** Moved in all since the guitar came in, mm, positive = back. */
	readonly movedMm?: number;
	/** What else would help where the travel does not reach. */
	readonly compromise?: SaddleCompromise;
	/** While a support is in and this string is to be turned on it: where to bring it so that it stands right once the support is out, cents. */
	readonly aimUnderSupport?: Estimate;
	/** Other frets read since anything was touched; undefined before one was. */
	readonly frets?: FretsRead;
	/** What was heard beyond the cents, when harmonic and fretted 12th were both heard at this place with nothing touched between. */
	readonly ears?: EarsTold;
}

export interface FretsRead {
	/** Means against the harmonic, lowest fret first; empty until a harmonic was read too. */
	readonly readings: readonly FretReading[];
	/** What lies behind them; from three frets on. */
	readonly pattern?: SaddlePattern;
}
