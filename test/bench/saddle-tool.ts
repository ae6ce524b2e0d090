import {type Belief, priorBelief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import {type SaddleBelief, saddleBeliefOf} from '../../source/estimation/saddle-belief.ts';
import {type SaddleHappening, usualSaddleNoise} from '../../source/estimation/saddle-history.ts';
import {type SaddleModel, saddleModelOf} from '../../source/estimation/saddle-model.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {harmonicAboveOctaveCents} from '../../source/physics/fretted-note.ts';
import {wireFrom} from '../../source/physics/wire.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {clawByEar, clawByEarSdM, type ClawReturn} from '../../source/planning/claw-return.ts';
import {aimsUnderSupport} from '../../source/planning/saddle-aims.ts';
import {planSaddle, type SaddleGoal, type SaddlePlan} from '../../source/planning/saddle-plan.ts';
import {areNearPitch} from '../../source/planning/saddle-readable.ts';
import {saddleTravelOf} from '../../source/planning/saddle-travel.ts';
import type {SaddleWay} from '../../source/planning/saddle-ways.ts';
import {placeSupport, removeSupport, turnClawUntil} from '../../source/practice/bridge-work.ts';
import type {Guitar, GuitarSpec} from '../../source/practice/guitar.ts';
import {pluck} from '../../source/practice/read.ts';
import {measureSaddle, moveSaddle} from '../../source/practice/saddle-work.ts';
import {settled} from '../../source/practice/rest.ts';
import {slacken, turnTo} from '../../source/practice/work.ts';
import {modelOf} from './model-of.ts';
import {goRound} from './other-ways.ts';
import {guidedPass} from './tool-pass.ts';

/** What a run of either kind came to. An adjustment is one slackening, one saddle set, or one turn of a peg to a pitch. */
export interface SaddleRun {
	readonly guitar: Guitar;
	readonly moves: readonly number[];
	readonly slackenings: number;
	readonly turns: number;
	/** Of the turns: on the support strings that hung slack, and others; floating, before all was proved; and after; both claw screws by ear. */
	readonly spent: Readonly<Record<Stretch, number>>;
	readonly plucks: number;
	readonly rulers: number;
	/** Strings that were believed at the end to have no reach left. */
	readonly outOfTravel: readonly number[];
	/** Belief at the end, cents and spreads, to be held against the truth. */
	readonly believed: readonly SaddleBelief[];
	/** What was foretold of each first move: expected error after it. */
	readonly foretold: readonly ({readonly mean: number; readonly sd: number} | undefined)[];
	/** Rounds of slackening. */
	readonly periods: number;
	readonly checks: number;
	/** Guided passes that gave up without bringing all to pitch. */
	readonly unfinished: number;
}

export const stretches = ['bringUp', 'othersOnSupport', 'toRead', 'afterProof', 'claw'] as const;
export type Stretch = (typeof stretches)[number];

export const adjustmentsOf = ({
	moves,
	slackenings,
	turns,
}: Pick<SaddleRun, 'moves' | 'slackenings' | 'turns'>): number =>
	slackenings + turns + moves.reduce((sum, count) => sum + count, 0);

/** How strings come back to pitch: by the tool's aims, or each straight to pitch, round after round. */
export type Retuning = 'guided' | 'rounds';

/** What the person tells the tool about each string: packet, scale, action as measured. */
function saddleModelsOf(spec: GuitarSpec): readonly SaddleModel[] {
	return spec.strings.map(({gaugeM, wound, targetHz}) =>
		saddleModelOf({
			wire: wireFrom({gaugeM, wound}),
			frequencyHz: targetHz,
			scaleLengthM: spec.scaleLengthM,
			actionM: spec.actionM,
			nutHeightM: spec.nutHeightM,
			giveShare: 0.15,
		}),
	);
}

/**
 * Somebody who does what the tool says. `all-at-once` reads every string,
 * moves every saddle that needs it in one slack period, follows one guided
 * pass and verifies; `blocked` does the same with a support under the bridge
 * from the slackening until all are back at pitch; `string-by-string` does so
 * for one string at a time.
 */
export function followTool(
	rng: Rng,
	start: Guitar,
	goals: {readonly saddle: SaddleGoal; readonly tuning: TuningGoal},
	way: SaddleWay,
	retuning: Retuning = 'guided',
): SaddleRun {
	const strings = start.spec.strings.map((_, index) => index);
	const person = new Person(rng, start, goals, saddleModelsOf(start.spec), way, retuning);
	if (way !== 'string-by-string') {
		for (let period = 0; period < 5; period++) {
			if (!person.period(strings, way)) break;
		}
	} else {
		for (const string of strings.toReversed()) {
			for (let period = 0; period < 5; period++) if (!person.period([string], way)) break;
		}
	}
	// Each saddle was judged while others were still to be slackened: a last look at all, and what it asks for.
	for (let round = 0; way === 'string-by-string' && round < 3; round++) if (!person.lookAgain(strings)) break;
	person.tune('in-tune', 'afterProof');
	return person.result();
}

/** Turns of the claw by ear in one tuning: far more than it takes. */
const mostClawTurns = 12;

/** A support never holds the plate quite where it floated, m at the tail edge. */
const supportSdM = 0.05e-3;

function supportPlaced(rng: Rng, guitar: Guitar): Guitar {
	const lifted = {...guitar, angleRad: guitar.angleRad + (supportSdM * rng.normal()) / guitar.spec.tailArmM};
	return settled(placeSupport(lifted));
}

class Person {
	readonly #rng: Rng;
	readonly #retuning: Retuning;
	readonly #way: SaddleWay;
	readonly #goals: {readonly saddle: SaddleGoal; readonly tuning: TuningGoal};
	readonly #models: readonly SaddleModel[];
	readonly #histories: SaddleHappening[][];
	readonly #moves: number[];
	readonly #foretold: ({readonly mean: number; readonly sd: number} | undefined)[];
	readonly #out = new Set<number>();
	#guitar: Guitar;
	#belief: Belief;
	readonly #spent: Record<Stretch, number> = {bringUp: 0, othersOnSupport: 0, toRead: 0, afterProof: 0, claw: 0};
	#count = {slackenings: 0, turns: 0, plucks: 0, rulers: 0, periods: 0, checks: 0, unfinished: 0};

	constructor(
		rng: Rng,
		start: Guitar,
		goals: {readonly saddle: SaddleGoal; readonly tuning: TuningGoal},
		models: readonly SaddleModel[],
		way: SaddleWay,
		retuning: Retuning,
	) {
		this.#way = way;
		this.#retuning = retuning;
		this.#rng = rng;
		this.#goals = goals;
		this.#models = models;
		this.#guitar = start;
		this.#histories = models.map(() => []);
		this.#moves = models.map(() => 0);
		this.#foretold = models.map(() => undefined);
		this.#belief = priorBelief(modelOf(start.spec), {nut: 'open', newness: 0});
	}

	/** Reads these strings until the tool knows what to do, then moves all of them that need it. False when none did. */
	period(strings: readonly number[], way: SaddleWay): boolean {
		const blocked = way === 'blocked';
		const moves = strings.flatMap(string => {
			const plan = this.#decided(string);
			const {step} = plan;
			if (step.kind === 'out-of-travel') this.#out.add(string);
			const isMove = step.kind === 'move' || (step.kind === 'out-of-travel' && Math.abs(step.travelMm) > 0.05);
			return isMove ? [{string, travelMm: step.travelMm, plan}] : [];
		});
		if (moves.length === 0) return false;
		if (blocked) {
			this.#guitar = supportPlaced(this.#rng, this.#guitar);
			this.#belief = learn(this.#belief, {kind: 'support-in'});
			// Two plucks before slackening tell how the support holds the plate.
			for (const string of [2, 5]) this.#readOpen(string);
		}
		for (const {string} of moves) {
			this.#guitar = slacken(this.#guitar, string);
			this.#belief = learn(this.#belief, {kind: 'slack', index: string});
			this.#count.slackenings++;
		}
		for (const {string, travelMm, plan} of moves) {
			this.#guitar = moveSaddle(this.#rng, this.#guitar, string, travelMm / 1000).guitar;
			this.#belief = learn(this.#belief, {kind: 'saddle', index: string, travelM: travelMm / 1000});
			this.#histories[string]!.push({kind: 'moved', travelMm});
			this.#foretold[string] ??= plan.expectedCents;
			this.#moves[string]!++;
		}
		this.#count.periods++;
		if (blocked) {
			this.#bringUp();
			this.#guitar = removeSupport(this.#guitar);
			this.#belief = learn(this.#belief, {kind: 'support-out'});
			for (const history of this.#histories) history.push({kind: 'touched'});
		}
		// What is left is tuned once, when all is proved; a pass after many slack strings cannot stop half way.
		if (way === 'all-at-once') this.tune();
		else this.tune('to-read');
		return true;
	}

	/** One pluck of each kind of every string; true when that made a saddle be moved. */
	lookAgain(strings: readonly number[]): boolean {
		for (const string of strings) this.#read(string, 1);
		let isMoved = false;
		for (const string of strings) {
			for (let period = 0; period < 5; period++) {
				if (!this.period([string], this.#way)) break;
				isMoved = true;
			}
		}
		return isMoved;
	}

	/** With the support in: every string that has an aim to it, those that hang first. */
	#bringUp(): void {
		for (let turn = 0; turn < 30; turn++) {
			const aims = aimsUnderSupport(this.#belief, this.#goals.tuning);
			const hanging = this.#belief.strings.findIndex(({on}) => on === 'slack');
			const string = hanging < 0 ? aims.findIndex(aim => aim !== undefined) : hanging;
			const aim = aims[string];
			if (!aim) return;
			const turned = turnTo(this.#rng, this.#guitar, string, aim.mean, 'peg');
			this.#guitar = turned.guitar;
			this.#count.turns++;
			this.#spent[hanging < 0 ? 'othersOnSupport' : 'bringUp']++;
			this.#belief = learn(this.#belief, {kind: 'turned', index: string, aimCents: aim.mean});
			this.#readOpen(string);
		}
	}

	#readOpen(string: number): void {
		const heard = pluck(this.#rng, this.#guitar, string, {how: 'open'});
		this.#guitar = heard.guitar;
		this.#count.plucks++;
		if (heard.cents === undefined) return;
		this.#belief = learn(this.#belief, {kind: 'pitch', index: string, cents: heard.cents});
	}

	/** One guided tuning pass, or as much of it as reading asks for; nothing that was read before can be subtracted from what is read after. */
	tune(until: 'in-tune' | 'to-read' = 'in-tune', stretch: Stretch = 'toRead'): void {
		if (this.#retuning === 'rounds') {
			const round = goRound(this.#rng, this.#guitar, this.#goals.tuning);
			this.#guitar = round.guitar;
			this.#count.turns += round.adjustments;
			this.#spent[stretch] += round.adjustments;
			if (round.adjustments > 0) for (const history of this.#histories) history.push({kind: 'touched'});
			return;
		}
		for (let round = 0; round <= mostClawTurns; round++) {
			let back: ClawReturn | undefined;
			const pass = guidedPass(this.#rng, this.#guitar, this.#belief, this.#goals.tuning, {
				isEnough: (now, belief, plan) => {
					if (until === 'to-read' && areNearPitch(now)) return true;
					if (this.#way !== 'blocked' || plan.step.kind === 'read' || round === mostClawTurns) return false;
					back = clawByEar(belief, this.#goals.tuning, plan);
					return back !== undefined;
				},
			});
			this.#guitar = pass.guitar;
			this.#belief = pass.belief;
			this.#count.turns += pass.adjustments;
			this.#spent[stretch] += pass.adjustments;
			if (!pass.finished) this.#count.unfinished++;
			this.#count.plucks += pass.plucks;
			if (pass.adjustments > 0 || back) for (const history of this.#histories) history.push({kind: 'touched'});
			if (!back) return;
			this.#guitar = turnClawUntil(this.#rng, this.#guitar, back.index, back.toCents).guitar;
			this.#count.turns++;
			this.#spent.claw++;
			this.#belief = learn(this.#belief, {kind: 'claw', advanceM: back.advanceM, sdM: clawByEarSdM(back.advanceM)});
			this.#readOpen(back.index);
		}
	}

	#decided(string: number): SaddlePlan {
		for (let asked = 0; asked < 8; asked++) {
			const plan = this.#plan(string);
			const {step} = plan;
			if (step.kind === 'read') this.#read(string, step.plucks);
			else if (step.kind === 'measure-place') this.#measure(string);
			else if (step.kind === 'check') {
				this.#count.checks++;
				if (step.check === 'measure-saddle') this.#measure(string);
				else this.#read(string, 2);
			} else return plan;
		}
		return this.#plan(string);
	}

	#plan(string: number): SaddlePlan {
		const {saddleRangeM} = this.#guitar.strings[string]!.seat;
		const travel = saddleTravelOf([saddleRangeM[0] * 1000, saddleRangeM[1] * 1000]);
		return planSaddle(this.#saddle(string), this.#goals.saddle, travel);
	}

	#saddle(string: number): SaddleBelief {
		return saddleBeliefOf(this.#models[string]!, {}, this.#histories[string]!, usualSaddleNoise);
	}

	#read(string: number, plucks: number): void {
		if (this.#moves.some(count => count > 0)) this.tune('to-read');
		for (let time = 0; time < plucks; time++) {
			for (const how of ['harmonic', 'fretted'] as const) {
				const heard = pluck(this.#rng, this.#guitar, string, {how});
				this.#guitar = heard.guitar;
				this.#count.plucks++;
				if (heard.cents === undefined) continue;
				this.#histories[string]!.push({kind: 'read', how, cents: heard.cents});
				// The harmonic tells the bridge's belief where the string stands, too.
				if (how !== 'harmonic') continue;
				const aboveOctave = harmonicAboveOctaveCents(this.#models[string]!.string.openStiffness);
				this.#belief = learn(this.#belief, {kind: 'pitch', index: string, cents: heard.cents - aboveOctave});
			}
		}
	}

	#measure(string: number): void {
		const positionMm = measureSaddle(this.#rng, this.#guitar, string) * 1000;
		this.#histories[string]!.push({kind: 'measured', positionMm});
		this.#count.rulers++;
	}

	result(): SaddleRun {
		return {
			guitar: this.#guitar,
			moves: this.#moves,
			...this.#count,
			spent: this.#spent,
			outOfTravel: [...this.#out],
			believed: this.#models.map((_, string) => this.#saddle(string)),
			foretold: this.#foretold,
		};
	}
}
