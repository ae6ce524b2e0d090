import type {Belief} from '../../source/estimation/belief.ts';
import {learn} from '../../source/estimation/learn.ts';
import type {Estimate} from '../../source/numeric/estimate.ts';
import type {Rng} from '../../source/numeric/rng.ts';
import {consequencesOf} from '../../source/planning/forecast.ts';
import type {TuningGoal} from '../../source/planning/goal.ts';
import {clawLift, clawLiftSdCents, clawLiftSdM} from '../../source/planning/claw-lift.ts';
import {advanceBeforeRelease} from '../../source/planning/claw-plan.ts';
import {clawByEar, clawByEarSdM, type ClawReturn, mostLedTurns} from '../../source/planning/claw-return.ts';
import {planTuning, type TuningPlan} from '../../source/planning/tuning-plan.ts';
import {liftClear, removeSupport, supportAt, turnClawUntil} from '../../source/practice/bridge-work.ts';
import type {Guitar} from '../../source/practice/guitar.ts';
import {pluck} from '../../source/practice/read.ts';
import {stretchString, turnTo} from '../../source/practice/work.ts';
import {openCents} from '../../source/practice/sound.ts';
import {tensionsN} from '../../source/practice/sound.ts';

/** One guided tuning: somebody does what the tool says, with imperfect hands and tuner. */
export interface Pass {
	readonly guitar: Guitar;
	readonly belief: Belief;
	readonly adjustments: number;
	readonly plucks: number;
	/** Of the adjustments: turns of the claw. */
	readonly clawTurns: number;
	/** Strings pulled by hand to take the give out. */
	readonly pulls: number;
	readonly finished: boolean;
	/** Every forecast move beside what truly happened, cents, in spreads. */
	readonly shifts: readonly {readonly predicted: number; readonly sd: number; readonly true: number}[];
	/** Largest share of nominal minimum strength that an aim asked for, plain strings. */
	readonly strain: number;
	readonly log: readonly string[];
}

/**
 * Follows the tool from wherever the guitar stands until it says done (or far too long).
 *
 * @param isEnough Ends the pass earlier: given what is believed of each string, `undefined` where it hangs slack or was turned unread.
 */
export function guidedPass(
	rng: Rng,
	start: Guitar,
	prior: Belief,
	goal: TuningGoal,
	{
		log = false,
		isEnough = () => false,
	}: {log?: boolean; isEnough?: (now: TuningPlan['now'], belief: Belief, plan: TuningPlan) => boolean} = {},
): Pass {
	let guitar = start;
	let belief = prior;
	let adjustments = 0;
	let plucks = 0;
	let pulls = 0;
	let strain = 0;
	const shifts: {predicted: number; sd: number; true: number}[] = [];
	const lines: string[] = [];
	let reads = belief.strings.map(() => 0);
	for (let step = 0; step < 400; step++) {
		const plan = planTuning(belief, goal, reads);
		const {step: next} = plan;
		if (log) lines.push(describe(next, plan.now, guitar));
		if (
			isEnough(
				plan.now.map((each, index) => (isHeard(belief, index) ? each : undefined)),
				belief,
				plan,
			) ||
			next.kind === 'done'
		) {
			return {guitar, belief, adjustments, clawTurns: 0, plucks, pulls, finished: true, shifts, strain, log: lines};
		}

		if (next.kind === 'turn') {
			const forecast = consequencesOf(belief, {kind: 'turn', index: next.index, toCents: next.aim.mean});
			const before = belief.strings.map((_, index) => openCents(guitar, index));
			const turned = turnTo(rng, guitar, next.index, next.aim.mean, belief.nut === 'open' ? 'peg' : 'fine-tuner');
			guitar = turned.guitar;
			const string = belief.model.strings[next.index]!;
			if (!string.wound) strain = Math.max(strain, tensionsN(guitar)[next.index]! / string.breakingLoadN);
			for (const [index, move] of forecast.moves.entries()) {
				const from = before[index];
				const to = openCents(guitar, index);
				if (move && from !== undefined && to !== undefined && belief.strings[index]!.everRead) {
					shifts.push({predicted: move.mean, sd: move.sd, true: to - from});
				}
			}

			adjustments++;
			belief = learn(belief, {kind: 'turned', index: next.index, aimCents: next.aim.mean});
			reads = reads.map(() => 0);
		}

		if (next.kind === 'read' && next.why === 'settling') {
			// All along its length: three pulls, no adjustment.
			for (let pull = 0; pull < 3; pull++) guitar = stretchString(guitar, next.index);
			belief = learn(belief, {kind: 'pulled', index: next.index});
			pulls++;
			reads = reads.map(() => 0);
		}

		const heard = pluck(rng, guitar, next.index, {how: 'open'});
		guitar = heard.guitar;
		plucks++;
		reads[next.index]!++;
		if (heard.cents === undefined) {
			belief = learn(belief, {kind: 'slack', index: next.index});
		} else {
			belief = learn(belief, {kind: 'pitch', index: next.index, cents: heard.cents});
		}
	}

	return {guitar, belief, adjustments, clawTurns: 0, plucks, pulls, finished: false, shifts, strain, log: lines};
}

/**
 * The same with a support made to hold the plate at the wished height before
 * the first turn: every string straight to pitch, the claw turned until the
 * plate comes off its support, and what is left is done as a guided pass. A
 * turn of the claw counts as an adjustment like one of a peg.
 */
export function supportedPass(
	rng: Rng,
	start: Guitar,
	prior: Belief,
	goal: TuningGoal,
	{log = false, mostClawTurns = mostLedTurns, wanted}: SupportedOptions = {},
): Pass {
	const wishM = start.spec.wishTailM ?? 0;
	const held = guidedPass(rng, supportAt(rng, start, wishM), learn(prior, {kind: 'support-in', tailM: wishM}), goal, {
		log,
	});
	let {guitar, belief, plucks} = held;
	const lines = [...held.log];
	const read = (index: number): void => {
		const heard = pluck(rng, guitar, index, {how: 'open'});
		guitar = heard.guitar;
		plucks++;
		if (heard.cents !== undefined) belief = learn(belief, {kind: 'pitch', index, cents: heard.cents});
	};
	let clawTurns = 0;
	const advanceM = wanted ?? advanceBeforeRelease(belief, wishM);
	const lift = clawLift(belief, advanceM);
	if (lift) {
		guitar = liftClear(rng, guitar, lift.index, lift.toCents, lift.from).guitar;
		clawTurns++;
		belief = learn(belief, {kind: 'claw', advanceM: advanceM.mean, sdM: clawLiftSdM});
		if (log) lines.push(`LIFT by ${lift.index + 1} from ${lift.from}: ${truthOf(guitar)}`);
	} else {
		guitar = removeSupport(guitar);
	}

	belief = learn(belief, {kind: 'support-out'});
	if (lift) belief = learn(belief, {kind: 'pitch', index: lift.index, cents: lift.toCents, sdCents: clawLiftSdCents});
	// Floating again, every string is heard before anything is turned.
	for (const index of belief.strings.keys()) read(index);
	let pegTurns = 0;
	let last = held;
	for (let round = 0; round < 12; round++) {
		let back: ClawReturn | undefined;
		last = guidedPass(rng, guitar, belief, goal, {
			log,
			isEnough: (_, now, plan) => {
				if (plan.step.kind === 'read' || clawTurns >= mostClawTurns) return false;
				back = clawByEar(now, goal, plan);
				return back !== undefined;
			},
		});
		guitar = last.guitar;
		belief = last.belief;
		pegTurns += last.adjustments;
		plucks += last.plucks;
		lines.push(...last.log);
		if (!back) break;
		if (log) lines.push(`CLAW until ${back.index + 1} shows ${back.toCents.toFixed(1)}: ${truthOf(guitar)}`);
		guitar = turnClawUntil(rng, guitar, back.index, back.toCents).guitar;
		clawTurns++;
		belief = learn(belief, {kind: 'claw', advanceM: back.advanceM, sdM: clawByEarSdM(back.advanceM)});
		read(back.index);
	}

	if (log) lines.push(`PARTS support ${held.adjustments - guitar.strings.length} claw ${clawTurns} last ${pegTurns}`);
	return {
		...last,
		adjustments: held.adjustments + clawTurns + pegTurns,
		clawTurns,
		plucks,
		pulls: held.pulls + last.pulls,
		shifts: [...held.shifts, ...last.shifts],
		strain: Math.max(held.strain, last.strain),
		log: lines,
	};
}

interface SupportedOptions {
	readonly log?: boolean;
	readonly mostClawTurns?: number;
	/** What a ruler has told is wanted of the claw, metres of advance; what the belief makes of the strings alone when absent. */
	readonly wanted?: Estimate;
}

function truthOf(guitar: Guitar): string {
	return guitar.strings.map((_, index) => openCents(guitar, index)?.toFixed(1)).join(' ');
}

function isHeard({strings}: Belief, index: number): boolean {
	return strings[index]!.on === 'sounding' && !strings[index]!.turnedUnread;
}

function describe(
	step: ReturnType<typeof planTuning>['step'],
	now: ReturnType<typeof planTuning>['now'],
	guitar: Guitar,
): string {
	const believed = now
		.map((estimate, index) => {
			const truth = openCents(guitar, index);
			return `${estimate ? `${estimate.mean.toFixed(1)}±${estimate.sd.toFixed(1)}` : '-'}[${truth?.toFixed(1) ?? 'slack'}]`;
		})
		.join(' ');
	const what =
		step.kind === 'turn'
			? `TURN ${step.index + 1} to ${step.aim.mean.toFixed(1)}±${step.aim.sd.toFixed(1)} landing ±${step.landing.sd.toFixed(1)}${step.gentle ? ' gentle' : ''}`
			: step.kind === 'read'
				? `read ${step.index + 1} (${step.why})`
				: `DONE p=${step.probability.toFixed(2)}`;
	return `${what.padEnd(45)} ${believed}`;
}
