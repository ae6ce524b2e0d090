/** A string as the nut sees it: unstretched wire and path on both sides. */
export interface Wrapped {
	readonly frontM: number;
	readonly behindM: number;
	readonly behindPathM: number;
	/** Largest ratio of the two tensions before the wire slides, exp(friction × wrap), ≥ 1; Infinity when clamped. */
	readonly grip: number;
}

/**
 * Unstretched wire in front of the nut once the front path has become
 * `frontPathM`. Inside the capstan's dead band nothing slides, and this memory
 * is why small movements of the bridge do not share the stretch behind the
 * nut while large ones do. Beyond it the wire slides until
 *
 *     T_front = g T_behind,   g = grip or 1/grip,
 *
 * with T = EA (path / wire − 1) on either side and all wire conserved, which
 * is a quadratic in the front wire. A path that changes in one direction may
 * be taken in one step.
 */
export function frontWireM({frontM, behindM, behindPathM, grip}: Wrapped, frontPathM: number): number {
	if (grip === Number.POSITIVE_INFINITY) return frontM;
	const frontStrain = Math.max(0, frontPathM / frontM - 1);
	const behindStrain = Math.max(0, behindPathM / behindM - 1);
	if (frontStrain <= behindStrain * grip && behindStrain <= frontStrain * grip) return frontM;

	const wireM = frontM + behindM;
	// Slack as a whole: one side's slack runs over to the other.
	if (frontPathM + behindPathM <= wireM) return (wireM * frontPathM) / (frontPathM + behindPathM);
	const ratio = frontStrain > behindStrain * grip ? grip : 1 / grip;
	const a = 1 - ratio;
	const b = frontPathM + a * wireM + ratio * behindPathM;
	const c = frontPathM * wireM;
	return (2 * c) / (b + Math.sqrt(b * b - 4 * a * c));
}
