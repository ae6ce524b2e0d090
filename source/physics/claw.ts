/**
 * The springs and the claw, linear in the claw's advance.
 *
 * Own derivation: with n springs of rate k on an arm a, the spring moment
 * with the plate level rises by n k a per metre of claw travel; K = n k a².
 */

/** Rise of the spring moment at level, N m, per metre of claw screw advance: K / a. */
export function momentPerClawMetreNm(springRateNmPerRad: number, springArmM: number): number {
	return springRateNmPerRad / springArmM;
}

/**
 * Claw advance that changes the resting angle by `angleRad` once every string
 * is back at pitch: a · θ, whatever the number and rate of springs.
 */
export function clawAdvanceForAngleM(angleRad: number, springArmM: number): number {
	return angleRad * springArmM;
}

/** Rotational rate of n like springs on an arm, N m/rad. */
export function springRateNmPerRad(springs: number, rateNPerM: number, springArmM: number): number {
	return springs * rateNPerM * springArmM ** 2;
}

/**
 * Turns that correct a tail height once every string is back at pitch,
 * hk g / (e p): linear, contacts and hooks straight above and below the knife
 * edge. A real bridge answers 1 / (1 - `softening`) as strongly.
 *
 * @param heightM g, tail height to be taken away, metres, positive = high.
 * @param tailArmM e, knife edge to where the height is measured, metres.
 * @param pitchM p, advance of a screw per turn, metres.
 */
export function clawTurnsForHeight(
	heightM: number,
	{springArmM, tailArmM, pitchM}: {readonly springArmM: number; readonly tailArmM: number; readonly pitchM: number},
): number {
	return clawAdvanceForAngleM(heightM / tailArmM, springArmM) / pitchM;
}

/**
 * How much contacts behind the knife edge take away from the springs' hold at
 * pitch: as the plate tips back by θ the strings lose arm by x θ each, so of
 * K only K - Σ T x is left. Pure number below 1 for a bridge that stands.
 */
export function softening(totalTensionN: number, setbackM: number, rateNmPerRad: number): number {
	return (totalTensionN * setbackM) / rateNmPerRad;
}

/**
 * Tilt at once, strings not yet retuned, per metre of claw advance, radians
 * per metre: (K / a) / (K + h² Σ k).
 *
 * @param stringsNmPerRad h² Σ k, what the strings hold against tilting.
 */
export function tiltAtOncePerMetre(springRate: number, springArmM: number, stringsNmPerRad: number): number {
	return momentPerClawMetreNm(springRate, springArmM) / (springRate + stringsNmPerRad);
}
