import type {Belief} from '../estimation/belief.ts';
import {propagated} from '../estimation/gaussian.ts';
import {giveAheadCents} from '../estimation/settling.ts';
import {held, poseOf} from '../estimation/hold.ts';
import type {Estimate} from '../numeric/estimate.ts';
import type {TuningGoal} from './goal.ts';
import {centsOf} from './landing.ts';
import {cheapestTurns} from './turn-choice.ts';

/**
 * What it costs, in turns, to leave a string that may be out of tolerance
 * once the support is out: it can be turned then, but moves the others. So a
 * string is turned now only if it would rather be turned than not. Judgement.
 */
const costOfLeaving = 0.8;

/**
 * Strings that were in tune before the support went in come home within a few
 * cents. An aim farther away than this, cents, says only that the bridge is
 * not known yet: then pitch is the aim. Judgement.
 */
const farthestCents = 60;

/**
 * Which strings to turn while a support holds the bridge, and where to, so
 * that all stand right once it is out: the moved saddles ask for other
 * tensions than before, and the plate will come to rest a little elsewhere.
 * Those that hang slack are turned anyway, so each may end a little off pitch
 * where that brings home another which then needs no turn; of the rest those
 * that will hardly come home, while nothing moves anything else.
 *
 * @param belief With the support in.
 * @returns Cents by string; `undefined` for strings that are to stay as they are.
 */
export function aimsUnderSupport(belief: Belief, goal: TuningGoal): readonly (Estimate | undefined)[] {
	const floating: Belief = {...belief, blocked: false};
	const {pull} = belief.layout;
	const sounding = belief.strings.flatMap(({on}, index) => (on === 'off' ? [] : [index]));
	const hanging = sounding.filter(index => belief.strings[index]!.on === 'slack');
	// From where the support holds the plate: it has not tipped with the slack strings, nor dragged the others over the nut.
	const out = (x: Float64Array, ends: readonly (number | undefined)[]) => held(floating, poseOf(belief, x), ends).x;
	const atPitch = belief.strings.map((_, index) => (hanging.includes(index) ? 0 : undefined));
	const now = propagated(belief, x => centsOf(floating, out(x, atPitch))).estimates;
	const x = out(belief.mean, atPitch);
	const aimsTo = (ends: readonly (number | undefined)[]) =>
		propagated(belief, guess => {
			const end = out(guess, ends);
			const there = Float64Array.from(guess);
			for (const [index, cents] of ends.entries()) if (cents !== undefined) there[pull(index)] = end[pull(index)]!;
			return centsOf(belief, there).map((cents, index) => (ends[index] === undefined ? undefined : cents));
		}).estimates;
	const {todo, endCents} = cheapestTurns(floating, {
		goal,
		costOfMiss: costOfLeaving,
		now,
		sounding,
		far: hanging,
		x,
		restCents: centsOf(floating, x).map((cents, index) =>
			cents === undefined || hanging.includes(index) ? cents : cents - giveAheadCents(belief, index),
		),
		doubt: 0,
		// Where the plate comes to rest is as unsure for a string turned as for one left: a turn does not mend that.
		landingSd: aimsTo(belief.strings.map(({on}) => (on === 'off' ? undefined : 0))).map(aim => aim?.sd ?? 0),
	});
	const aims = aimsTo(
		endCents.map((cents, index) => (todo.has(index) ? cents + giveAheadCents(belief, index) : undefined)),
	);
	return aims.map((aim, index) => {
		if (!aim || Math.abs(aim.mean) <= farthestCents) return aim;
		return hanging.includes(index) ? {mean: giveAheadCents(belief, index), sd: aim.sd} : undefined;
	});
}
