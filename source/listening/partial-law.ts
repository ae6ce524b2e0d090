/**
 * Where the partials of a stiff string lie:
 *
 *     f_n = n f₀ √(1 + B n²)
 *
 * f₀ is the string without stiffness and is never heard; what a perfect tuner
 * shows is the first partial, f₁ = f₀ √(1 + B).
 *
 * A 12th-fret harmonic sounds partials 2, 4, 6 … of the open string. Counted
 * from its own first, they follow the same law with f₀ doubled and 4B, and so
 * does (nearly) the string fretted there, half as long. So a sounding tone is
 * always described by its own law, counted from its lowest partial.
 *
 * @see H. Fletcher, J. Acoust. Soc. Am. 36, 203 (1964), from memory.
 */
export interface PartialLaw {
	/** Frequency without stiffness, > 0. */
	readonly idealHz: number;
	/** Stiffness coefficient B, ≥ 0; strings of a guitar: about 1e-5 to 5e-4. */
	readonly stiffness: number;
}

/** Frequency of partial `n` (1, 2, 3 …), Hz. */
export function partialHz({idealHz, stiffness}: PartialLaw, n: number): number {
	return n * idealHz * Math.sqrt(1 + stiffness * n * n);
}

/** What a perfect tuner shows, Hz. */
export function firstPartialHz(law: PartialLaw): number {
	return partialHz(law, 1);
}

/** The law of a tone whose first partial and stiffness are known. */
export function lawWithFirstPartial(firstHz: number, stiffness: number): PartialLaw {
	return {idealHz: firstHz / Math.sqrt(1 + stiffness), stiffness};
}

/** How far stiffness lifts partial `n` above n f₀, cents: 600 log₂(1 + B n²). */
export function stiffnessShiftCents(stiffness: number, n: number): number {
	return 600 * Math.log2(1 + stiffness * n * n);
}

/** The law heard at the 12th-fret harmonic of a string with this open law. */
export function harmonicLaw({idealHz, stiffness}: PartialLaw): PartialLaw {
	return {idealHz: 2 * idealHz, stiffness: 4 * stiffness};
}
