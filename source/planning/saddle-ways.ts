/** Ways to set all saddles; the person chooses, and may change over. */
export const saddleWays = ['string-by-string', 'all-at-once', 'blocked'] as const;
/**
 * - `string-by-string`: slacken, move, bring up, prove; then the next string;
 * - `all-at-once`: read all, move all saddles in one slack period, one guided pass, prove;
 * - `blocked`: the same with a support under the bridge from before the slackening until all are up again.
 *   Condition: it holds the plate where it floats, neither lifted nor let down, and two strings are plucked once it
 *   is in, before any is slackened: they tell how well it does. Readings of intonation are taken without it.
 */
export type SaddleWay = (typeof saddleWays)[number];

/** What a way costs from here. */
export interface SaddleWayCost {
	readonly way: SaddleWay;
	/** Expected adjustments: every slackening, every saddle set, every turn of a peg or fine tuner to a pitch counts one. */
	readonly adjustments: number;
	/** Times that strings are slack; without a support each throws all others sharp until it is over. */
	readonly slackPeriods: number;
}

/** Turns that bringing strings back takes. */
export interface TurnsNeeded {
	/** String by string: turns of any string, per saddle moved, until it can be read. */
	readonly alonePerMove: number;
	/** All at once, floating: turns per string of the guitar. */
	readonly passPerString: number;
	/** All at once on a support: turns per slack string while it is in. */
	readonly supportedPerMove: number;
	/** On a support and string by string: turns per string of the guitar once all is proved. */
	readonly finalPerString: number;
}

/** Measured on the practice guitar: `npm run bench:intonation`, six strings, 120 to 200 guitars, most of them moving five saddles. */
export const usualTurnsNeeded: TurnsNeeded = {
	alonePerMove: 1.4,
	passPerString: 3,
	supportedPerMove: 1.1,
	finalPerString: 0.5,
};

/**
 * @param job Strings on the guitar, saddles to be moved, and the mean chance that a moved one needs a second move.
 * @returns One cost a way, in the order of `saddleWays`; all zero when nothing is to be moved.
 */
export function saddleWayCosts(
	job: {readonly strings: number; readonly toMove: number; readonly secondMoveChance: number},
	turns: TurnsNeeded = usualTurnsNeeded,
): readonly SaddleWayCost[] {
	const {strings, toMove, secondMoveChance} = job;
	if (toMove === 0) return saddleWays.map(way => ({way, adjustments: 0, slackPeriods: 0}));
	const moves = toMove * (1 + secondMoveChance);
	const periods = 1 + (1 - (1 - secondMoveChance) ** toMove);
	// A guided pass after few slack strings touches few: those and about half of the others.
	const inPass = Math.min(strings, toMove + (strings - toMove) / 2);
	return [
		{
			way: 'string-by-string',
			adjustments: moves * (2 + turns.alonePerMove) + strings * turns.finalPerString,
			slackPeriods: moves,
		},
		{way: 'all-at-once', adjustments: 2 * moves + periods * inPass * turns.passPerString, slackPeriods: periods},
		{
			way: 'blocked',
			adjustments: moves * (2 + turns.supportedPerMove) + strings * turns.finalPerString,
			slackPeriods: periods,
		},
	];
}
