/**
 * A string on the bridge as the tool believes in it: an elastic wire between
 * the saddle and the place that holds it (the peg, or the locking nut).
 *
 * `stretchM` is what a hand sets with a peg or fine tuner: how far the shared
 * length would be stretched if the plate were held level. The bridge adds its
 * travel (positive = away from the neck = longer).
 *
 *     T = E A (stretch + travel) / (shared − stretch),   0 when slack
 *     μ = μ₀ (shared − stretch) / (shared + travel)       (mass is conserved)
 *     f = √(T / μ) / 2 (L + travel)
 *
 * Mass per length μ₀ is that of the unstretched wire. Bending stiffness is left
 * out here: it is the same at the target and near it, so it cancels in cents.
 */
export interface ElasticString {
	/** E times the area of the core, newtons, > 0. */
	readonly axialStiffnessN: number;
	/** Of the unstretched wire, kg/m, > 0. */
	readonly massPerLengthKgPerM: number;
	/** Saddle to nut with the plate level, metres, > 0. */
	readonly speakingLengthM: number;
	/** Length that shares the stretch: speaking length, and the part behind an open nut. */
	readonly sharedLengthM: number;
	/** Stretch with the plate level, metres; negative means slack by that much. */
	readonly stretchM: number;
}

/** Cents per unit of ln(tension): 600 / ln 2. */
export const centsPerLogTension = 600 / Math.LN2;

/** Tension in newtons at a bridge travel in metres; 0 when slack. */
export function tensionAt(string: ElasticString, travelM: number): number {
	const extensionM = string.stretchM + travelM;
	return extensionM > 0 ? (string.axialStiffnessN * extensionM) / (string.sharedLengthM - string.stretchM) : 0;
}

/** Newtons per metre of bridge travel; 0 when slack. */
export function stiffnessAt(string: ElasticString, travelM: number): number {
	return string.stretchM + travelM > 0 ? string.axialStiffnessN / (string.sharedLengthM - string.stretchM) : 0;
}

/** Fundamental in hertz at a bridge travel in metres; `undefined` when slack. */
export function frequencyAt(string: ElasticString, travelM: number): number | undefined {
	const tensionN = tensionAt(string, travelM);
	if (tensionN <= 0) return undefined;
	const massPerLength =
		(string.massPerLengthKgPerM * (string.sharedLengthM - string.stretchM)) / (string.sharedLengthM + travelM);
	return Math.sqrt(tensionN / massPerLength) / (2 * (string.speakingLengthM + travelM));
}

/**
 * Stretch (plate level) with which the string sounds a frequency at a travel.
 *
 * From f: the strain ε at that travel solves  ε (1 + ε) = 4 μ₀ L² f² / E A.
 *
 * @returns Metres; may be negative when the travel alone is more than enough.
 */
export function stretchForFrequency(
	string: Omit<ElasticString, 'stretchM'>,
	frequencyHz: number,
	travelM: number,
): number {
	const lengthM = string.speakingLengthM + travelM;
	const load = (4 * string.massPerLengthKgPerM * (lengthM * frequencyHz) ** 2) / string.axialStiffnessN;
	const strain = (Math.sqrt(1 + 4 * load) - 1) / 2;
	// shared + travel = (shared − stretch)(1 + ε)
	return string.sharedLengthM - (string.sharedLengthM + travelM) / (1 + strain);
}
