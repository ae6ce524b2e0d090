import type {Rng} from '../../source/numeric/rng.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import type {SaddleGoal} from '../../source/planning/saddle-plan.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {pluck} from '../../source/practice/read.ts';
import {moveSaddle} from '../../source/practice/saddle-work.ts';
import {slacken, turnTo} from '../../source/practice/work.ts';
import {goRound} from './other-ways.ts';

export interface GuessRun {
	readonly guitar: Guitar;
	readonly moves: readonly number[];
	readonly slackenings: number;
	readonly turns: number;
	/** Of the turns: those of the string at hand; of the guitar before the next reading; of the guitar at the end of a round. */
	readonly spent: Readonly<Record<GuessStretch, number>>;
	readonly plucks: number;
	readonly finished: boolean;
}

export const guessStretches = ['atHand', 'between', 'atEnd'] as const;
export type GuessStretch = (typeof guessStretches)[number];

/** How somebody works who knows the direction of a move but does not compute the distance. */
export interface GuessHabit {
	/** Distance, mm without sign, from the error read and from what was done to this string before. */
	readonly guessMm: (errorCents: number, before: Before) => number;
	/** What is brought back to pitch before the next reading: the string alone, or the whole guitar, round after round. */
	readonly retunes: 'string' | 'guitar';
	/** Fretted 12th minus harmonic at which a string being worked on is left alone, cents; the last look at all takes the tolerance. */
	readonly stopsAtCents: number;
}

interface Before {
	/** The last distance moved, mm; undefined for a first guess. */
	readonly lastMm: number | undefined;
	/** The last move went past the mark. */
	readonly crossed: boolean;
}

/** One millimetre to begin with; again as much while it is short, half as much back when it went past. */
const byStepsMm = (_: number, {lastMm, crossed}: Before) => (lastMm === undefined ? 1 : crossed ? lastMm / 2 : lastMm);
/** Half a millimetre, one, two or three for a little, some, much, very much. */
const byFeelMm = (errorCents: number) => (errorCents < 3 ? 0.5 : errorCents < 6 ? 1 : errorCents < 12 ? 2 : 3);
const byRuleMm = (errorCents: number) => 0.37 * errorCents;

/**
 * Nobody has counted what people do, so several: by steps, by feel of long
 * experience, by the rule of .37 mm per cent; the whole guitar tuned again
 * before the next reading (a floating bridge has thrown it), or that string
 * alone; content with ±2 cents once read, or with ±1, which is what it takes
 * to end within ±2 as often as the tool.
 */
export const guessHabits = {
	'steps, guitar': {guessMm: byStepsMm, retunes: 'guitar', stopsAtCents: 2},
	'steps, guitar, ±1': {guessMm: byStepsMm, retunes: 'guitar', stopsAtCents: 1},
	'feel, guitar': {guessMm: byFeelMm, retunes: 'guitar', stopsAtCents: 2},
	'feel, guitar, ±1': {guessMm: byFeelMm, retunes: 'guitar', stopsAtCents: 1},
	'feel, string alone': {guessMm: byFeelMm, retunes: 'string', stopsAtCents: 2},
	'feel, string alone, ±1': {guessMm: byFeelMm, retunes: 'string', stopsAtCents: 1},
	'rule, string alone': {guessMm: byRuleMm, retunes: 'string', stopsAtCents: 2},
	'rule, string alone, ±1': {guessMm: byRuleMm, retunes: 'string', stopsAtCents: 1},
} as const satisfies Readonly<Record<string, GuessHabit>>;

/**
 * A practice is a measure only if it leaves the guitar as the tool is asked
 * to: this share of guitars with every saddle within tolerance in truth. All
 * end with the open strings gone over until a whole round finds each in tune.
 */
export const endsWellShare = 0.95;

/** How alike two guesses are, as a ratio of one standard deviation. */
const guessSpread = 0.25;

/**
 * The practice to be replaced: string by string from the lowest, harmonic to
 * pitch, fretted note read once, and if it is out of tolerance slacken, guess,
 * set, bring up, read again. At the end rounds of tuning and a last look at
 * every string; what is out of tolerance then is done again.
 */
export function guessAndRepeat(
	rng: Rng,
	start: Guitar,
	{saddle, tuning}: {readonly saddle: SaddleGoal; readonly tuning: TuningGoal},
	habit: GuessHabit,
): GuessRun {
	let guitar = start;
	let [slackenings, turns, plucks] = [0, 0, 0];
	const spent: Record<GuessStretch, number> = {atHand: 0, between: 0, atEnd: 0};
	const moves = start.strings.map(() => 0);
	const lowToHigh = start.strings.map((_, index) => index).toReversed();

	const read = (string: number, how: 'harmonic' | 'fretted'): number => {
		const heard = pluck(rng, guitar, string, {how});
		guitar = heard.guitar;
		plucks++;
		return heard.cents ?? -1000;
	};
	const toPitch = (string: number): number => {
		let shown = read(string, 'harmonic');
		for (let again = 0; Math.abs(shown) > tuning.toleranceCents && again < 6; again++) {
			guitar = turnTo(rng, guitar, string, 0, 'peg').guitar;
			turns++;
			spent.atHand++;
			shown = read(string, 'harmonic');
		}
		return shown;
	};
	const tuneAll = (stretch: GuessStretch): boolean => {
		const round = goRound(rng, guitar, tuning);
		guitar = round.guitar;
		turns += round.adjustments;
		spent[stretch] += round.adjustments;
		return round.finished;
	};
	/** True when the string needed no move. */
	const settle = (string: number, limitCents: number): boolean => {
		let lastMm: number | undefined;
		for (let again = 0; again < 15; again++) {
			const harmonic = toPitch(string);
			const off = read(string, 'fretted') - harmonic - saddle.wishCents;
			if (Math.abs(off) <= (again === 0 ? limitCents : habit.stopsAtCents)) return again === 0;
			const crossed = lastMm !== undefined && Math.sign(lastMm) !== Math.sign(off);
			const before = {lastMm: lastMm === undefined ? undefined : Math.abs(lastMm), crossed};
			const mm = Math.sign(off) * habit.guessMm(Math.abs(off), before) * Math.exp(guessSpread * rng.normal());
			lastMm = mm;
			guitar = slacken(guitar, string);
			slackenings++;
			guitar = moveSaddle(rng, guitar, string, mm / 1000).guitar;
			moves[string]!++;
			// The slack string comes up first in either habit; nobody chases the others while it hangs.
			toPitch(string);
			if (habit.retunes === 'guitar') tuneAll('between');
		}
		return false;
	};

	for (let pass = 0; pass < 4; pass++) {
		const untouched = lowToHigh
			.map(string => settle(string, pass === 0 ? habit.stopsAtCents : saddle.toleranceCents))
			.every(Boolean);
		const finished = tuneAll('atEnd');
		if (untouched) return {guitar, moves, slackenings, turns, spent, plucks, finished};
	}
	return {guitar, moves, slackenings, turns, spent, plucks, finished: false};
}
