import type {Estimate} from '../numeric/estimate.ts';
import {exchangeRange, reHookM, springForceRangeN, springsRange} from './claw-limits.ts';

/** What is known when the claw is to be turned. Turns and advances positive = tighter. */
export interface SpringCase {
	/** Springs fitted. */
	readonly springs: number;
	/** Advance of both claw screws that brings the wish at pitch, metres. */
	readonly advanceM: Estimate;
	/** Pull of one spring with the plate as wished and all at pitch, newtons. */
	readonly springForceN: number;
	/** Rate of one spring, N/m, > 0. */
	readonly springRateNPerM: number;
	/** Advance of a claw screw per turn, metres, > 0. */
	readonly pitchM: number;
	/** Travel left on the screws, metres, ≥ 0: until thread runs out of the wood, until the claw is home. */
	readonly travelLeftM: {readonly looser: number; readonly tighter: number};
	/** Height of the tail at pitch for each metre of advance that is missing, metres per metre, > 0. */
	readonly tailPerAdvance: number;
}

/** What is wrong with turning alone. */
export const springTroubles = ['thread-out', 'claw-home', 'coils-touch', 'over-drawn'] as const;
export type SpringTrouble = (typeof springTroubles)[number];

/** How things stand at pitch, plate as wished, once something was done. */
export interface SpringOutlook {
	readonly springs: number;
	/** Pull of one spring, newtons. */
	readonly forceN: number;
	/** Claw turns from where it is now, positive tightens. */
	readonly turns: number;
}

export type SpringAdvice =
	| {readonly kind: 'turns-will-do'; readonly outlook: SpringOutlook}
	| {
			readonly kind: 'add' | 'remove';
			/** Springs more or fewer, ≥ 1. */
			readonly count: number;
			readonly trouble: SpringTrouble;
			readonly now: SpringOutlook;
			readonly outlook: SpringOutlook;
	  }
	| {
			/** Hooked one place further out (`tighter`) or further in, the claw has that much less to do. */
			readonly kind: 're-hook';
			readonly way: 'tighter' | 'looser';
			readonly trouble: SpringTrouble;
			readonly now: SpringOutlook;
			readonly outlook: SpringOutlook;
	  }
	| {
			readonly kind: 'exchange';
			readonly way: 'stiffer' | 'softer';
			/** Rate wanted over rate fitted. */
			readonly ratio: number;
			readonly trouble: SpringTrouble;
			readonly now: SpringOutlook;
			readonly outlook: SpringOutlook;
	  }
	| {
			/** Level and pitch cannot both be had; what can. */
			readonly kind: 'cannot';
			readonly trouble: SpringTrouble;
			readonly now: SpringOutlook;
			/** As far as the claw goes, and how far off the wish the tail then stands at pitch, metres, positive = high. */
			readonly atEnd: {readonly turns: number; readonly tailOffM: number};
			/** Share by which the strings' total pull would have to change for the wish: thinner or lower when negative. */
			readonly pullShare: number;
	  };

/**
 * Turns, or another spring?
 *
 * n springs of rate k on an arm a hold a moment M with F = M / (n a) each, so
 * n' springs pull F' = F n / n' and stretch by (F' - F) / k more: that much
 * the claw must be nearer or farther. Springs of another rate k' keep F and
 * change the stretch beyond the initial tension. The smallest change is
 * advised: fewest springs touched, then the claw nearest to where it is.
 *
 * Own derivation; the limits are in `claw-limits.ts`.
 */
export function springAdvice(now: SpringCase): SpringAdvice {
	const fitted = outlookOf(now, now.springs);
	const trouble = troubleOf(now, fitted);
	if (!trouble) return {kind: 'turns-will-do', outlook: fitted};
	const reHooked = reHook(now, fitted, trouble);
	if (reHooked) return reHooked;
	const counted = otherCount(now);
	if (counted) {
		const more = counted.springs - now.springs;
		const kind = more > 0 ? 'add' : 'remove';
		return {kind, count: Math.abs(more), trouble, now: fitted, outlook: counted};
	}

	return exchange(now, fitted, trouble) ?? {kind: 'cannot', trouble, now: fitted, ...whatCan(now, fitted)};
}

/** At pitch with the plate as wished and this many springs of the fitted kind. */
export function outlookOf(now: SpringCase, springs: number): SpringOutlook {
	const forceN = (now.springForceN * now.springs) / springs;
	const advanceM = now.advanceM.mean + (forceN - now.springForceN) / now.springRateNPerM;
	return {springs, forceN, turns: advanceM / now.pitchM};
}

function troubleOf(now: SpringCase, {forceN, turns}: SpringOutlook): SpringTrouble | undefined {
	const [least, most] = springForceRangeN;
	if (forceN < least) return 'coils-touch';
	if (forceN > most) return 'over-drawn';
	const advanceM = turns * now.pitchM;
	if (advanceM < -now.travelLeftM.looser) return 'thread-out';
	return advanceM > now.travelLeftM.tighter ? 'claw-home' : undefined;
}

/** A shortage of travel that another hook makes up for. */
function reHook(now: SpringCase, fitted: SpringOutlook, trouble: SpringTrouble): SpringAdvice | undefined {
	if (trouble !== 'claw-home' && trouble !== 'thread-out') return undefined;
	const way = trouble === 'claw-home' ? 'tighter' : 'looser';
	const turns = fitted.turns - ((way === 'tighter' ? 1 : -1) * reHookM) / now.pitchM;
	const outlook = {...fitted, turns};
	return troubleOf(now, outlook) ? undefined : {kind: 're-hook', way, trouble, now: fitted, outlook};
}

function otherCount(now: SpringCase): SpringOutlook | undefined {
	const [fewest, most] = springsRange;
	const counts = Array.from({length: most - fewest + 1}, (_, index) => fewest + index);
	return counts
		.filter(count => count !== now.springs)
		.map(count => outlookOf(now, count))
		.filter(outlook => !troubleOf(now, outlook))
		.sort(
			(one, other) =>
				Math.abs(one.springs - now.springs) - Math.abs(other.springs - now.springs) ||
				Math.abs(one.turns) - Math.abs(other.turns),
		)[0];
}

/** Springs of another rate, as many as now, with the claw brought half way back into its travel. */
function exchange(now: SpringCase, fitted: SpringOutlook, trouble: SpringTrouble): SpringAdvice | undefined {
	if (trouble !== 'claw-home' && trouble !== 'thread-out') return undefined;
	const {looser, tighter} = now.travelLeftM;
	const wantedM = trouble === 'claw-home' ? tighter / 2 : -looser / 2;
	// F / k' = F / k - (advance - wanted): stiffer springs stretch less for the same pull.
	const stretchM = now.springForceN / now.springRateNPerM - (now.advanceM.mean - wantedM);
	if (stretchM <= 0) return undefined;
	const ratio = now.springForceN / (stretchM * now.springRateNPerM);
	const change = Math.max(ratio, 1 / ratio);
	if (change < exchangeRange[0] || change > exchangeRange[1]) return undefined;
	const outlook = {...fitted, turns: wantedM / now.pitchM};
	return {kind: 'exchange', way: ratio > 1 ? 'stiffer' : 'softer', ratio, trouble, now: fitted, outlook};
}

function whatCan(now: SpringCase, {turns}: SpringOutlook) {
	const {looser, tighter} = now.travelLeftM;
	const advanceM = turns * now.pitchM;
	const reachableM = Math.min(tighter, Math.max(-looser, advanceM));
	const [least, most] = springForceRangeN;
	const forceN = now.springForceN - (advanceM - reachableM) * now.springRateNPerM;
	const heldN = Math.min(most, Math.max(least, forceN));
	return {
		// Too loose a claw leaves the tail high.
		atEnd: {turns: reachableM / now.pitchM, tailOffM: (advanceM - reachableM) * now.tailPerAdvance},
		pullShare: heldN / now.springForceN - 1,
	};
}
