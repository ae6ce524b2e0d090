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
