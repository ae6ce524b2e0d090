import {requireFinite, requireNotNegative, requirePositive} from '../numeric/require.ts';
import {stiffnessRatio} from './stiff-string.ts';
import type {StringConstants} from './string-constants.ts';

/**
 * Where a string runs over its frets. The string is clamped at the nut, which
 * is exactly what a locking nut does.
 */
export interface StringPath {
	/** X₀, nut to the line the frets are laid out for, m, > 0. */
	readonly scaleLengthM: number;
	/** ΔS, saddle behind that line, m; positive = back, longer. */
	readonly saddleSetbackM: number;
	/** ΔN, nut behind its line, m; negative = nearer the first fret. 0 for a nut where it belongs. */
	readonly nutSetbackM?: number;
	/** b, string above the plane of the frets at the nut, m, ≥ 0. */
	readonly nutHeightM: number;
	/** c, saddle above the nut, m. */
	readonly saddleHeightM: number;
	/** How far the 12th fret lies below the straight neck, m, ≥ 0; 0 for a straight one. */
	readonly reliefM?: number;
	/** d, finger behind the fret, m, ≥ 0. 0 is close to it. */
	readonly fingerBehindM?: number;
}

/** A string on a bridge that may give. */
export interface FrettedString extends StringConstants {
	/**
	 * Share of the stretch that the bridge takes up by tipping, 0 (a fixed
	 * bridge, the default) to below 1; see `giveShare`.
	 */
	readonly giveShare?: number;
}

/** What pressing the string at a fret does; the four parts add up to `errorCents`. */
export interface FrettedNote {
	/** Against equal temperament of the open string, cents, positive = sharp. */
	readonly errorCents: number;
	readonly parts: {
		/** Sounding length against the fret's rule. */
		readonly lengthCents: number;
		/** String thinned by the stretch. */
		readonly densityCents: number;
		/** Tension raised by the stretch. */
		readonly tensionCents: number;
		/** Bending stiffness of the shorter string. */
		readonly stiffnessCents: number;
	};
	/** Q, relative elongation by the finger, pure number. */
	readonly elongation: number;
}

/**
 * Error of a fretted note, by the exact path of the string over nut, finger,
 * fret and saddle.
 *
 *     g  = 2^(n/12),  Xₙ = X₀/g
 *     Q  = (Lₙ + L'ₙ − L₀) / L₀       Lₙ fret to saddle, L'ₙ fret to finger to nut
 *     Tₙ = T₀ (1 + κ Q),  μₙ = μ₀/(1 + Q),  Bₙ = B₀ (L₀/Lₙ) √(T₀/Tₙ)
 *     error = 1200 log₂ (L₀/g Lₙ) + 600 log₂ (μ₀/μₙ) + 600 log₂ (Tₙ/T₀) + 1200 log₂ (stiffness ratio)
 *
 * A floating bridge gives: of the elongation Q it takes back the share p, so
 * tension and density see (1 − p) Q and the sounding length loses p Q L₀. With
 * p = 0 this is the source's model to the letter, except that relief enters Q
 * as a saddle raised by twice the relief with the open length of that path, so
 * that a straight open string has Q of a straight one. Own addition: p.
 *
 * Left out: sideways bend and pressing beyond the fret, worn or misplaced
 * frets, a neck that bends under the finger.
 *
 * @param fret n, > 0; whole for real frets.
 * @throws {RangeError} If a quantity is out of its range, or the finger lies beyond the nut.
 * @see M. B. Anderson and R. G. Beausoleil, J. Acoust. Soc. Am. 156(1), 683 (2024), sections on the guitar's model.
 */
export function frettedNote(fret: number, path: StringPath, string: FrettedString): FrettedNote {
	guard(fret, path, string);
	const {scaleLengthM, saddleSetbackM, saddleHeightM, nutSetbackM = 0, reliefM = 0} = path;
	const {giveShare = 0} = string;
	const g = 2 ** (fret / 12);
	const straight = lengthsM(g, path, saddleHeightM);
	const pressed = lengthsM(g, path, saddleHeightM + 2 * reliefM);
	const elongation = (pressed.toSaddleM + pressed.toNutM - pressed.openM) / pressed.openM;
	const openM = Math.hypot(scaleLengthM + saddleSetbackM + nutSetbackM, saddleHeightM);
	const soundingM = straight.toSaddleM - giveShare * elongation * openM;

	const kept = (1 - giveShare) * elongation;
	const tensionRatio = 1 + string.stringConstant * kept;
	const frettedStiffness = (string.openStiffness * (openM / soundingM)) / Math.sqrt(tensionRatio);
	const parts = {
		lengthCents: 1200 * Math.log2(openM / (g * soundingM)),
		densityCents: 600 * Math.log2(1 + kept),
		tensionCents: 600 * Math.log2(tensionRatio),
		stiffnessCents: 1200 * Math.log2(stiffnessRatio(frettedStiffness) / stiffnessRatio(string.openStiffness)),
	};
	return {
		errorCents: parts.lengthCents + parts.densityCents + parts.tensionCents + parts.stiffnessCents,
		parts,
		elongation,
	};
}

/** L₀, Lₙ and L'ₙ of the path with the saddle `c` above the nut, m. */
function lengthsM(g: number, path: StringPath, c: number) {
	const {scaleLengthM, saddleSetbackM, nutHeightM: b, nutSetbackM = 0, fingerBehindM = 0} = path;
	const toSaddleAlongM = scaleLengthM / g + saddleSetbackM;
	const toSaddleM = Math.hypot(toSaddleAlongM, b + c);
	// The finger presses the string on in the line from saddle to fret, to below the fret's top.
	const slope = (b + c) / toSaddleAlongM;
	const nutToFingerM = scaleLengthM - scaleLengthM / g + nutSetbackM - fingerBehindM;
	const toNutM = fingerBehindM * Math.hypot(1, slope) + Math.hypot(nutToFingerM, b + slope * fingerBehindM);
	return {openM: Math.hypot(scaleLengthM + saddleSetbackM + nutSetbackM, c), toSaddleM, toNutM};
}

function guard(fret: number, path: StringPath, string: FrettedString): void {
	const {scaleLengthM, saddleSetbackM, saddleHeightM, nutHeightM} = path;
	const {reliefM = 0, fingerBehindM = 0, nutSetbackM = 0} = path;
	const {stringConstant, openStiffness, giveShare = 0} = string;
	const room = scaleLengthM * (1 - 2 ** (-fret / 12)) + nutSetbackM - fingerBehindM;
	requirePositive('frettedNote', {fret, scaleLengthM, stringConstant, 'room between nut and finger, m,': room});
	requireNotNegative('frettedNote', {nutHeightM, reliefM, fingerBehindM, openStiffness, giveShare});
	requireFinite('frettedNote', {saddleSetbackM, saddleHeightM});
	if (giveShare >= 1) throw new RangeError(`frettedNote: expected giveShare to be below 1, got ${giveShare}`);
}

/**
 * What a tuner shows on the bench: the note fretted at the 12th fret less the
 * harmonic over it, cents. The harmonic is mode 2 of the open string, a little
 * sharp of its octave by stiffness (0.25 cent for a plain third).
 */
export function frettedMinusHarmonicCents(path: StringPath, string: FrettedString): number {
	return frettedNote(12, path, string).errorCents - harmonicAboveOctaveCents(string.openStiffness);
}

/** 12th-fret harmonic above the octave of the open string, cents, ≥ 0, from B₀. */
export function harmonicAboveOctaveCents(openStiffness: number): number {
	return 1200 * Math.log2(stiffnessRatio(openStiffness, 2) / stiffnessRatio(openStiffness));
}

/**
 * Height of the saddle above the nut, m, from the action as it is measured:
 * string over the 12th fret, relief included. Half way along, the string runs
 * at b + c/2 above the plane, the fret lies the relief below it:
 *
 *     c = 2 (action − b − relief)
 */
export function saddleHeightFromActionM({
	actionM,
	nutHeightM,
	reliefM = 0,
}: {
	readonly actionM: number;
	readonly nutHeightM: number;
	readonly reliefM?: number;
}): number {
	requireNotNegative('saddleHeightFromActionM', {actionM, nutHeightM, reliefM});
	return 2 * (actionM - nutHeightM - reliefM);
}

/**
 * Share of a string's own stretch that a bridge takes up, kC / (1 + kC).
 *
 * @param complianceMPerN C, how far the bridge lets this string's end come, m per N
 * of that string's pull, every other string and the springs holding against it; ≥ 0.
 * @param stretchStiffnessNPerM k, pull per metre of stretch, N/m, > 0.
 */
export function giveShare({
	complianceMPerN,
	stretchStiffnessNPerM,
}: {
	readonly complianceMPerN: number;
	readonly stretchStiffnessNPerM: number;
}): number {
	requireNotNegative('giveShare', {complianceMPerN});
	requirePositive('giveShare', {stretchStiffnessNPerM});
	const loose = complianceMPerN * stretchStiffnessNPerM;
	return loose / (1 + loose);
}
