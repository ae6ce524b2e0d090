import type {Belief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {inEighths} from '../../source/planning/claw-limits.ts';
import {planClaw} from '../../source/planning/claw-plan.ts';
import {
	advanceFor,
	type ClawSense,
	clawTurned,
	firstSense,
	plateSeen,
	withClawSense,
} from '../../source/planning/claw-sense.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {plateUnknown} from '../../source/planning/plate-unknown.ts';
import {plateVerdict} from '../../source/planning/plate-verdict.ts';
import {type Guitar, measureTail, pluck, truth, turnClaw} from '../../source/practice/index.ts';
import {guidedPass} from './tool-pass.ts';

export interface Wish {
	readonly goal: TuningGoal;
	readonly wishTailM: number;
	readonly toleranceM: number;
}

/** The plate and the strings after a claw step and its pass, by the hidden truth. */
export interface Outcome {
	readonly tailOffM: number;
	readonly worstCents: number;
	/** Claw turns of this step, and those of the trim on the way through its pass. */
	readonly turns: number;
	readonly trimTurns: number;
}

/** One balancing: somebody measures, turns the claw as told, tunes as told, measures again. */
export interface Balanced {
	readonly guitar: Guitar;
	readonly belief: Belief;
	readonly steps: readonly Outcome[];
	readonly pegTurns: number;
	readonly clawTouches: number;
	readonly plucks: number;
	readonly measures: number;
}

/** Near enough to pitch for the plate to be looked at on the way, cents. */
const roughCents = 15;
/** From this many turns on it is worth a look. */
const boldTurns = 0.5;

/** Somebody who follows the tool on one guitar. */
class Hands {
	guitar: Guitar;
	belief: Belief;
	sense: ClawSense;
	pegTurns = 0;
	clawTouches = 0;
	plucks = 0;
	measures = 0;
	readonly #rng: Rng;

	constructor(rng: Rng, guitar: Guitar, belief: Belief) {
		this.#rng = rng;
		this.guitar = guitar;
		this.belief = belief;
		this.sense = firstSense(belief);
	}

	pluckAll(): void {
		for (const index of this.belief.strings.keys()) {
			const heard = pluck(this.#rng, this.guitar, index);
			this.guitar = heard.guitar;
			this.plucks++;
			const {cents} = heard;
			this.belief = learn(this.belief, cents === undefined ? {kind: 'slack', index} : {kind: 'pitch', index, cents});
		}
	}

	/** The ruler laid on so many times. */
	look(times: number): void {
		for (let time = 0; time < times; time++) this.measure();
	}

	measure(): void {
		const shownM = measureTail(this.#rng, this.guitar);
		if (this.measures++ === 0) this.belief = plateUnknown(this.belief, shownM);
		this.belief = learn(this.belief, {kind: 'tail', tailM: shownM});
		this.sense = plateSeen(this.sense, shownM, planClaw(this.belief, 0).toComeM);
	}

	/** Measures until it is clear whether the plate stands as wished. */
	judge({wishTailM, toleranceM}: Wish): boolean {
		for (let measures = 0; ; measures++) {
			const {tailM: mean, tailVariance} = this.sense;
			const verdict = plateVerdict({mean, sd: Math.sqrt(tailVariance)}, {wishM: wishTailM, toleranceM, measures});
			if (verdict !== 'measure-again') return verdict === 'stands';
			this.measure();
		}
	}

	/** Turns the claw as planned, to an eighth; how far. */
	claw({wishTailM}: Wish): number {
		const pitchM = this.guitar.spec.clawScrewPitchM;
		const turns = inEighths(advanceFor(this.sense, wishTailM).mean / pitchM);
		if (turns === 0) return 0;
		this.clawTouches++;
		this.guitar = turnClaw(this.#rng, this.guitar, {trebleTurns: turns, bassTurns: turns}).guitar;
		this.belief = learn(this.belief, {kind: 'claw', advanceM: turns * pitchM});
		this.sense = clawTurned(this.sense, turns * pitchM);
		return turns;
	}

	pass(goal: TuningGoal): void {
		const pass = guidedPass(this.#rng, this.guitar, this.belief, goal);
		this.guitar = pass.guitar;
		this.belief = pass.belief;
		this.pegTurns += pass.adjustments;
		this.plucks += pass.plucks;
	}
}

/**
 * When the claw is turned. `first`: before the pass, and then left alone.
 * `late`: once, when all strings are roughly at pitch. `trimmed`: before the
 * pass, and trimmed when all strings are roughly at pitch.
 */
export type Moment = 'first' | 'late' | 'trimmed';

export interface Way {
	readonly moment: Moment;
	/** How often the ruler is laid on before a bold turn and, where it is looked at, after it. */
	readonly looks: number;
}

/** Measure, claw, one guided pass; again while the measured plate is off. */
export function balanceByTool(
	rng: Rng,
	start: Guitar,
	prior: Belief,
	wish: Wish,
	{moment, looks}: Way,
	mostSteps = 3,
): Balanced {
	const hands = new Hands(rng, start, prior);
	const steps: Outcome[] = [];
	hands.pluckAll();
	hands.look(looks);
	do {
		if (moment === 'late' && steps.length === 0) {
			hands.pass({...wish.goal, toleranceCents: roughCents});
			hands.look(looks);
		}

		const turns = hands.claw(wish);
		let trimTurns = 0;
		if (moment === 'trimmed' && Math.abs(turns) >= boldTurns) {
			hands.pass({...wish.goal, toleranceCents: roughCents});
			hands.look(looks);
			trimTurns = hands.claw(wish);
		}

		hands.pass(wish.goal);
		const {tailM, cents} = truth(hands.guitar);
		const worstCents = Math.max(...cents.map(each => Math.abs(each ?? 1200)));
		steps.push({tailOffM: tailM - wish.wishTailM, worstCents, turns, trimTurns});
	} while (!hands.judge(wish) && steps.length < mostSteps);
	const {guitar, belief, pegTurns, clawTouches, plucks, measures} = hands;
	return {guitar, belief: withClawSense(belief, hands.sense), steps, pegTurns, clawTouches, plucks, measures};
}
