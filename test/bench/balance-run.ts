import type {Belief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {type Learned, learnedFrom} from '../../source/estimation/memory.ts';
import type {Estimate} from '../../source/numeric/estimate.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {inEighths} from '../../source/planning/claw-limits.ts';
import {clawChances, isLookWorth, isRough, isTurnWorth, sureShare} from '../../source/planning/claw-moment.ts';
import {planClaw} from '../../source/planning/claw-plan.ts';
import {
	advanceFor,
	armOf,
	broughtBack,
	type ClawSense,
	clawTurned,
	firstSense,
	plateSeen,
} from '../../source/planning/claw-sense.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {plateUnknown} from '../../source/planning/plate-unknown.ts';
import {plateVerdict} from '../../source/planning/plate-verdict.ts';
import {boldTurns} from '../../source/session/plate.ts';
import {type Guitar, measureTail, pluck, truth, turnClaw} from '../../source/practice/index.ts';
import {guidedPass, type Pass, supportedPass} from './tool-pass.ts';

export interface Wish {
	readonly goal: TuningGoal;
	readonly wishTailM: number;
	readonly toleranceM: number;
}

/** The plate and the strings after a claw step and its pass, by the hidden truth. */
export interface Outcome {
	readonly tailOffM: number;
	readonly worstCents: number;
	/** Claw turns of this step. */
	readonly turns: number;
	/** How often the claw was turned up to here, trims on the way counted. */
	readonly touches: number;
}

/** One balancing: somebody measures, turns the claw as told, tunes as told, measures again. */
export interface Balanced {
	readonly guitar: Guitar;
	/** What it says to the instrument's next set-up. */
	readonly lesson: Learned;
	readonly steps: readonly Outcome[];
	readonly pegTurns: number;
	readonly clawTouches: number;
	readonly plucks: number;
	readonly measures: number;
}

/** What somebody knows who begins: a belief, and the arm that acts at pitch (ln of metres) if an earlier set-up taught it. */
export interface Known {
	readonly belief: Belief;
	readonly arm?: Estimate | undefined;
}

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
	readonly #wish: Wish;
	/** Measures since anything moved. */
	#freshMeasures = 0;
	#lastTurns = 0;

	constructor(rng: Rng, guitar: Guitar, {belief, arm}: Known, wish: Wish) {
		this.#rng = rng;
		this.#wish = wish;
		this.guitar = guitar;
		this.belief = belief;
		this.sense = firstSense(belief, arm);
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

	measure(): void {
		const shownM = measureTail(this.#rng, this.guitar);
		if (this.measures++ === 0) this.belief = plateUnknown(this.belief, shownM);
		this.#freshMeasures++;
		this.belief = learn(this.belief, {kind: 'tail', tailM: shownM});
		this.sense = plateSeen(this.sense, shownM, planClaw(this.belief, 0).toComeM);
	}

	/** A look at the plate; a second one where a bold turn of the claw follows or came before. */
	look(): void {
		this.measure();
		this.lookAgain();
	}

	lookAgain(): void {
		const isBold = Math.abs(this.#turnsWanted()) >= boldTurns || Math.abs(this.#lastTurns) >= boldTurns;
		if (isTurnWorth(this.chances) && (isBold || isLookWorth(this.chances))) this.measure();
	}

	get chances() {
		const {wishTailM: wishM, toleranceM} = this.#wish;
		return clawChances(this.sense, {wishM, toleranceM, screwPitchM: this.guitar.spec.clawScrewPitchM});
	}

	/** Measures until it is clear whether the plate stands as wished. */
	judge(): boolean {
		const {wishTailM: wishM, toleranceM} = this.#wish;
		for (;;) {
			const {tailM: mean, tailVariance} = this.sense;
			const measures = this.#freshMeasures;
			const tail = {mean, sd: Math.sqrt(tailVariance)};
			const verdict = plateVerdict(tail, {wishM, toleranceM, measures, turned: this.chances.turnedNow});
			if (verdict === 'stands') return true;
			const isBold = Math.max(Math.abs(this.#lastTurns), Math.abs(this.#turnsWanted())) >= boldTurns;
			const isSecondDue = measures === 1 && (isBold || isLookWorth(this.chances));
			if (verdict === 'off' && !isSecondDue) return this.#turnsWanted() === 0;
			this.measure();
		}
	}

	#turnsWanted(): number {
		return inEighths(advanceFor(this.sense, this.#wish.wishTailM).mean / this.guitar.spec.clawScrewPitchM);
	}

	/** Turns the claw as planned, to an eighth; how far. */
	claw(): number {
		const turns = this.#turnsWanted();
		if (turns === 0) return 0;
		const advanceM = turns * this.guitar.spec.clawScrewPitchM;
		this.clawTouches++;
		this.#freshMeasures = 0;
		this.#lastTurns = turns;
		this.guitar = turnClaw(this.#rng, this.guitar, {trebleTurns: turns, bassTurns: turns}).guitar;
		this.belief = learn(this.belief, {kind: 'claw', advanceM});
		this.sense = clawTurned(this.sense, advanceM);
		return turns;
	}

	/** Every string set on a support at the wished height, the claw led by ear; more than once only where it is trimmed on the way. */
	onSupport(isTrimmed: boolean): void {
		const wanted = advanceFor(this.sense, this.#wish.wishTailM);
		const pass = supportedPass(this.#rng, this.guitar, this.belief, this.#wish.goal, {
			wanted,
			...(isTrimmed ? {} : {mostClawTurns: 1}),
		});
		this.#took(pass);
		this.clawTouches += pass.clawTurns;
		this.sense = broughtBack(this.sense, this.#wish.wishTailM);
	}

	outcome(turns: number): Outcome {
		const {tailM, cents} = truth(this.guitar);
		const worstCents = Math.max(...cents.map(each => Math.abs(each ?? 1200)));
		return {tailOffM: tailM - this.#wish.wishTailM, worstCents, turns, touches: this.clawTouches};
	}

	#took(pass: Pass): void {
		this.guitar = pass.guitar;
		this.belief = pass.belief;
		this.pegTurns += pass.adjustments - pass.clawTurns;
		this.plucks += pass.plucks;
		if (pass.adjustments > 0) this.#freshMeasures = 0;
	}

	/** A guided pass; up to where all strings are roughly at pitch, or to its end. */
	pass(upTo: 'rough' | 'end'): void {
		const options = upTo === 'rough' ? {isEnough: (_: unknown, now: Belief) => isRough(now)} : {};
		this.#took(guidedPass(this.#rng, this.guitar, this.belief, this.#wish.goal, options));
	}
}

export interface Way {
	/** When the claw is turned: led by ear from a level support, as the wizard does unless told otherwise; by calculation before the pass, or once all strings are roughly at pitch. */
	readonly moment: 'support' | 'first' | 'late';
	/** Whether the plate is looked at on the way, and the claw turned once more if that shows it is wanted: what the wizard does. */
	readonly isTrimmed: boolean;
}

/** Measure, claw, one guided pass, proof; again while the plate is off. */
export function balanceByTool(
	rng: Rng,
	start: Guitar,
	known: Known,
	wish: Wish,
	{moment, isTrimmed}: Way,
	mostSteps = 3,
): Balanced {
	const hands = new Hands(rng, start, known, wish);
	const steps: Outcome[] = [];
	hands.pluckAll();
	hands.measure();
	do {
		const isFirst = steps.length === 0;
		if (isFirst && moment === 'support') {
			hands.lookAgain();
			hands.onSupport(isTrimmed);
			steps.push(hands.outcome(0));
			continue;
		}

		if (isFirst && moment === 'late') {
			hands.pass('rough');
			hands.look();
		} else if (isFirst) {
			hands.lookAgain();
		}

		const turns = !isFirst || isTurnWorth(hands.chances) ? hands.claw() : 0;
		if (isTrimmed && turns !== 0 && hands.chances.asItIs < sureShare) {
			hands.pass('rough');
			hands.look();
			if (isTurnWorth(hands.chances)) hands.claw();
		}

		hands.pass('end');
		steps.push(hands.outcome(turns));
	} while (!hands.judge() && steps.length < mostSteps);
	const {guitar, belief, sense, pegTurns, clawTouches, plucks, measures} = hands;
	const lesson = {...learnedFrom(belief), clawArm: armOf(sense)};
	return {guitar, lesson, steps, pegTurns, clawTouches, plucks, measures};
}
