/** What counts as in tune, and how well it can be told. */
export interface TuningGoal {
	/** Largest error of an open string at the end, cents. */
	readonly toleranceCents: number;
	/** Spread of one reading, cents. */
	readonly readingCents: number;
	/** Spread of where a hand stops turning, cents. */
	readonly handCents: number;
}

export const usualGoal: TuningGoal = {toleranceCents: 2, readingCents: 0.5, handCents: 0.7};
