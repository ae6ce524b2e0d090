import type {Belief} from '../estimation/belief.ts';
import type {ClawPlan} from './claw-plan.ts';
import {usualClawTravelM} from './claw-limits.ts';
import type {SpringCase} from './spring-advice.ts';

/** The claw's screws: pitch, and how far they stood from their ends before anything was turned. */
export interface ClawScrews {
	/** Metres per turn, > 0. */
	readonly pitchM: number;
	/** Turns made since, positive tighter. */
	readonly turnsMade: number;
	/** Turns that were left at first; the usual travel when not known. */
	readonly turnsLeft?: {readonly looser: number; readonly tighter: number} | undefined;
}

/** What `springAdvice` has to know, from a plan of the claw. */
export function springCaseOf(belief: Belief, plan: ClawPlan, {pitchM, turnsMade, turnsLeft}: ClawScrews): SpringCase {
	const usual = usualClawTravelM / pitchM;
	const {looser, tighter} = turnsLeft ?? {looser: usual, tighter: usual};
	return {
		springs: belief.model.springs,
		advanceM: plan.advanceM,
		springForceN: plan.springForceN.mean,
		springRateNPerM: plan.springRateNPerM,
		pitchM,
		travelLeftM: {
			looser: Math.max(0, (looser + turnsMade) * pitchM),
			tighter: Math.max(0, (tighter - turnsMade) * pitchM),
		},
		tailPerAdvance: plan.tailPerAdvance,
	};
}
