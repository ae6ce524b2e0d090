import type {Estimate} from '../numeric/estimate.ts';
import {requirePositive} from '../numeric/require.ts';
import {bendCents} from '../physics/bend.ts';
import {
	frettedMinusHarmonicCents,
	frettedNote,
	type FrettedString,
	harmonicAboveOctaveCents,
	saddleHeightFromActionM,
	type StringPath,
} from '../physics/fretted-note.ts';
import {inharmonicityFromStiffness, stiffnessFromInharmonicity} from '../physics/inharmonicity.ts';
import {type StringConstants, stringConstantsOf} from '../physics/string-constants.ts';
import type {Wire} from '../physics/wire.ts';

/** One string over its frets, as far as it is known before anything is heard. */
export interface SaddleModel {
	readonly wire: Wire;
	readonly frequencyHz: number;
	/** Nut to the scale line, actions and finger as below; the saddle's place in it is not used. */
	readonly path: StringPath;
	readonly string: FrettedString;
}

/** What a saddle model is made from. */
export interface SaddleSetting {
	readonly wire: Wire;
	/** Target of the open string. */
	readonly frequencyHz: number;
	readonly scaleLengthM: number;
	/** String over the 12th fret, as measured. */
	readonly actionM: number;
	/** String over the plane of the frets at the nut. */
	readonly nutHeightM: number;
	/** Share of the stretch that the bridge gives back, 0 when blocked. See `giveShare`. */
	readonly giveShare?: number;
	/** String behind an open nut that shares the stretch; 0 with the nut locked. */
	readonly extraLengthM?: number;
	/** Stiffness coefficient of the open string as it was heard; without it, the packet's. */
	readonly heardStiffness?: Estimate;
}

/**
 * Finger behind the fret when nobody says: judgement, a thumb's rule. Between 0
 * and 12 mm it makes 7 % of the tension part.
 */
const usualFingerBehindM = 0.008;

/** @throws {RangeError} If a length or the frequency is not positive and finite. */
export function saddleModelOf(setting: SaddleSetting): SaddleModel {
	const {
		wire,
		frequencyHz,
		scaleLengthM,
		actionM,
		nutHeightM,
		giveShare = 0,
		extraLengthM = 0,
		heardStiffness,
	} = setting;
	requirePositive('saddleModelOf', {frequencyHz, scaleLengthM, actionM});
	return {
		wire,
		frequencyHz,
		path: {
			scaleLengthM,
			saddleSetbackM: 0,
			nutHeightM,
			saddleHeightM: saddleHeightFromActionM({actionM, nutHeightM}),
			fingerBehindM: usualFingerBehindM,
		},
		string: {
			...withHeardStiffness(stringConstantsOf(wire, {frequencyHz, scaleLengthM, extraLengthM}), heardStiffness),
			giveShare,
		},
	};
}

/** How far a packet's string may be from the coefficient that its gauge gives, as a share: the core of a wound one is a guess. Judgement. */
const packetStiffnessShare = 0.35;

/** Bending stiffness as heard and as the packet says, each counted by how sure it is. */
function withHeardStiffness(constants: StringConstants, heard: Estimate | undefined): StringConstants {
	if (!heard) return constants;
	const packet = inharmonicityFromStiffness(constants.openStiffness);
	const packetVariance = (packetStiffnessShare * packet) ** 2;
	const share = packetVariance / (packetVariance + heard.sd ** 2);
	return {
		...constants,
		openStiffness: stiffnessFromInharmonicity(Math.max(0, packet + share * (heard.mean - packet))),
	};
}

/** Fretted 12th minus harmonic that the model expects with the saddle so far behind the scale line, cents. */
export function frettedCentsAt({path, string}: SaddleModel, saddleMm: number): number {
	return frettedMinusHarmonicCents({...path, saddleSetbackM: saddleMm / 1000}, string);
}

/** Any fretted note against the harmonic's octave, both against equal temperament, cents. */
export function fretErrorCentsAt({path, string}: SaddleModel, fret: number, saddleMm: number): number {
	const {errorCents} = frettedNote(fret, {...path, saddleSetbackM: saddleMm / 1000}, string);
	return errorCents - harmonicAboveOctaveCents(string.openStiffness);
}

/**
 * How far aside a finger that presses straight down still carries the string,
 * root mean square, metres: about what a plain string is thick. Judgement.
 */
const usualAsideM = 0.3e-3;

/**
 * What that does to a note fretted at the 12th on the mean, cents. To
 * whichever side the finger strays, the string gets longer: it is never flat,
 * so plucks average to this and not to 0.
 */
export function asideCents({path: {scaleLengthM}, string}: SaddleModel): number {
	const {stringConstant, giveShare = 0} = string;
	return bendCents(usualAsideM / (scaleLengthM / 2), stringConstant * (1 - giveShare));
}

/** Cents per mm of travel at a place; about −2.7 on a 648 mm scale. */
export function slopeCentsPerMm(model: SaddleModel, saddleMm: number): number {
	return (frettedCentsAt(model, saddleMm + 0.1) - frettedCentsAt(model, saddleMm - 0.1)) / 0.2;
}

/** Place at which the model expects this much fretted 12th minus harmonic, mm behind the scale line. */
export function saddleMmFor(model: SaddleModel, cents: number): number {
	let saddleMm = 0;
	// The curve is all but straight: each round gains two digits.
	for (let round = 0; round < 6; round++) {
		saddleMm += (cents - frettedCentsAt(model, saddleMm)) / slopeCentsPerMm(model, saddleMm);
	}
	return saddleMm;
}
