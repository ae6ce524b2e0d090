/** Ways to set all saddles; the person chooses, and may change over. */
export const saddleWays = ['string-by-string', 'all-at-once', 'blocked'] as const;
/**
 * - `string-by-string`: slacken, move, bring up, read; then the next string;
 * - `all-at-once`: read all, move all saddles in one slack period, one guided pass, verify;
 * - `blocked`: string by string with a support under the bridge, which must hold the plate exactly where it will float.
 */
export type SaddleWay = (typeof saddleWays)[number];

/** What a way costs from here. */
export interface SaddleWayCost {
	readonly way: SaddleWay;
	/** Expected adjustments: every slackening, every saddle set, every turn of a peg or fine tuner to a pitch counts one. */
	readonly adjustments: number;
	/** Times that the bridge tips back and the others are thrown sharp. */
	readonly slackPeriods: number;
}

/**
 * Turns that bringing strings back takes, measured by `npm run bench:intonation`
 * on the practice guitar.
 */
export interface TurnsNeeded {
	/** One string brought up from slack, the others at pitch. */
	readonly perStringAlone: number;
	/** Each string of the guitar in a guided pass after a common slack period. */
	readonly perStringInPass: number;
	/** Strings out of open tolerance at the end of string by string, as a share, one turn each. */
	readonly strayedShare: number;
}

export const usualTurnsNeeded: TurnsNeeded = {perStringAlone: 1.3, perStringInPass: 1.2, strayedShare: 0.5};

/**
 * @param strings Strings on the guitar.
 * @param toMove Strings whose saddle is to be moved, 0 to `strings`.
 * @param secondMoveChance Mean chance that a moved string needs a second move, 0 to 1.
 * @returns One cost a way, in the order of `saddleWays`.
 */
export function saddleWayCosts(
	{
		strings,
		toMove,
		secondMoveChance,
	}: {readonly strings: number; readonly toMove: number; readonly secondMoveChance: number},
	turns: TurnsNeeded = usualTurnsNeeded,
): readonly SaddleWayCost[] {
	if (toMove === 0) return saddleWays.map(way => ({way, adjustments: 0, slackPeriods: 0}));
	const moves = toMove * (1 + secondMoveChance);
	// At least one string needs a second period with this chance.
	const anySecond = 1 - (1 - secondMoveChance) ** toMove;
	const alone = 2 + turns.perStringAlone;
	return [
		{
			way: 'string-by-string',
			adjustments: moves * alone + strings * turns.strayedShare,
			slackPeriods: moves,
		},
		{
			way: 'all-at-once',
			adjustments: 2 * moves + strings * turns.perStringInPass * (1 + anySecond / 2),
			slackPeriods: 1 + anySecond,
		},
		{way: 'blocked', adjustments: moves * 3, slackPeriods: 0},
	];
}
