import {inEighths} from './claw-limits.ts';

/** Tail heights above level at the two sides, metres, positive = high. */
export interface TailBySide {
	readonly trebleM: number;
	readonly bassM: number;
}

/** Both sides measured, and by how much treble had been turned more than bass by then, turns. */
export interface SideMeasure extends TailBySide {
	readonly differenceTurns: number;
}

/** Turns of the two screws, eighths, positive tightens. */
export interface ClawBySide {
	readonly trebleTurns: number;
	readonly bassTurns: number;
	/**
	 * `alike`: the plate is not twisted beyond what can be measured. `unequal`:
	 * the screws take the twist out. `not-the-claw`: it does not answer to
	 * unequal screws; posts, knife edges or the plate itself are to be looked at,
	 * and the screws are set alike again.
	 */
	readonly twist: 'alike' | 'unequal' | 'not-the-claw';
	/** Treble side higher than bass side by this, metres. */
	readonly twistM: number;
}

/** Less than this between the sides is within what a ruler tells, metres. */
const leastTwistM = 0.25e-3;
/** Unequal turns are felt out in steps of at most this difference between the screws, turns. */
const mostDifferenceTurns = 0.5;
/** A difference between the screws that should have shown if the claw were the cause, turns. */
const tellingTurns = 0.5;

/**
 * Turns for each screw. The mean of both levels the mean of both sides; the
 * higher side gets more. How far a plate lets itself be twisted differs from
 * bridge to bridge (a stiff one hardly), so the first difference is a guess on
 * the safe side, made as if each side hung on its own screw, and the next one
 * follows from how the plate answered.
 *
 * @param meanTurns Turns that level the mean of both sides at pitch.
 * @param perTurnM Change of the tail's height at pitch per turn of both screws, metres, > 0.
 * @param measures Measures of both sides so far, oldest first, the last one now.
 */
export function clawBySide(meanTurns: number, perTurnM: number, measures: readonly SideMeasure[]): ClawBySide {
	const last = measures.at(-1);
	const alike = inEighths(meanTurns);
	if (!last) return {trebleTurns: alike, bassTurns: alike, twist: 'alike', twistM: 0};
	const twistM = last.trebleM - last.bassM;
	const {differenceTurns} = last;
	if (Math.abs(twistM) < leastTwistM) return {trebleTurns: alike, bassTurns: alike, twist: 'alike', twistM};
	const answerM = answerPerTurnM(measures);
	if (answerM !== undefined && answerM < perTurnM / 10) {
		const back = inEighths(-differenceTurns / 2);
		return {trebleTurns: alike + back, bassTurns: alike - back, twist: 'not-the-claw', twistM};
	}

	const wanted = twistM / (answerM ?? perTurnM);
	const difference = Math.max(-mostDifferenceTurns, Math.min(mostDifferenceTurns, wanted));
	const half = inEighths(difference / 2);
	return {
		trebleTurns: alike + half,
		bassTurns: alike - half,
		twist: half === 0 ? 'alike' : 'unequal',
		twistM,
	};
}

/** How much of the twist a turn of difference took away so far, metres per turn; undefined until it was tried. */
function answerPerTurnM(measures: readonly SideMeasure[]): number | undefined {
	const [first, ...rest] = measures;
	if (!first) return undefined;
	const turnedBy = ({differenceTurns}: SideMeasure) => differenceTurns - first.differenceTurns;
	// The widest apart, the latest of them: once the screws are set alike again, what was tried still counts.
	const telling = rest.toSorted((a, b) => Math.abs(turnedBy(a)) - Math.abs(turnedBy(b))).at(-1);
	if (!telling || Math.abs(turnedBy(telling)) < tellingTurns) return undefined;
	return (first.trebleM - first.bassM - (telling.trebleM - telling.bassM)) / turnedBy(telling);
}
