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

/** How much certainty is worth in turns and plucks. */
export interface Strictness {
	/** What leaving a string out of tolerance costs, in turns: it must be noticed, turned, and the rest looked at again. */
	readonly costOfMiss: number;
	/** Chance of being within tolerance below which another pluck is asked for at the end. */
	readonly proof: number;
	/** Readings of one string without anything being touched beyond which another teaches nothing. */
	readonly mostRepeats: number;
	/** Chance of being out of tolerance from which a string is heard yet again at the end, up to `mostAtEdge` times. */
	readonly edge: number;
	readonly mostAtEdge: number;
	/** A string not heard since the last turn is heard again if it is known less well than this, cents. */
	readonly hearAgainCents: number;
}

/**
 * A tolerance of more than twice what hand and tuner scatter can be proved,
 * and is. A narrower one is a wish that only luck fulfils on every string: to
 * turn and pluck for certainty would never end, so there the better guess
 * will do.
 */
export function strictnessOf({toleranceCents, readingCents, handCents}: TuningGoal): Strictness {
	const room = Math.min(1, toleranceCents / (provableSpreads * Math.hypot(readingCents, handCents)));
	return {
		costOfMiss: 14 * room ** 2,
		proof: 0.98 - 0.46 * (1 - room),
		mostRepeats: Math.round(1 + 3 * room ** 2),
		edge: 0.02,
		mostAtEdge: Math.round(1 + 9 * room ** 2),
		hearAgainCents: room < 0.9 ? 1.1 * readingCents : 0,
	};
}

/** What a tolerance must be of the spread of hand and tuner together to be proved. */
const provableSpreads = 2.3;

/** The tolerance, or the narrowest that hand and tuner can prove where that is wider, cents. */
export function provableCents({toleranceCents, readingCents, handCents}: TuningGoal): number {
	return Math.max(toleranceCents, provableSpreads * Math.hypot(readingCents, handCents));
}
